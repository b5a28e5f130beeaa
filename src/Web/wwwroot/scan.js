// Reads a bag's label with the camera where the browser can; typing the code works everywhere.

const card = document.getElementById("scan");
if (card && "BarcodeDetector" in globalThis && navigator.mediaDevices?.getUserMedia) {
  const says = document.getElementById("scan-says"), view = document.getElementById("scan-view"), start = document.getElementById("scan-start");
  card.hidden = false;
  start.addEventListener("click", async () => {
    start.disabled = true;
    try {
      const camera = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      view.srcObject = camera;
      view.hidden = false;
      await view.play();
      says.textContent = "Hold the label in front of the camera.";
      const code = await look(new BarcodeDetector({ formats: ["qr_code"] }));
      for (const track of camera.getTracks()) track.stop();
      location.href = `/bag?code=${encodeURIComponent(code)}`;
    } catch {
      says.textContent = "The camera cannot be used. Type the code instead.";
      start.disabled = false;
    }
  });

  async function look(detector) {
    for (;;) {
      for (const found of await detector.detect(view)) {
        const code = found.rawValue.match(/\/bag\/([0-9A-Za-z]+)/)?.[1] ?? found.rawValue.match(/^[0-9A-Za-z]{6}$/)?.[0];
        if (code) return code;
        says.textContent = "That is no bag’s label.";
      }
      await new Promise(resolve => setTimeout(resolve, 150));
    }
  }
}
