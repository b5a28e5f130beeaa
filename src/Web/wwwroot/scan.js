// Reads a bag's label with the camera where the browser can; typing the code works everywhere, and the page says so.
import { say } from "./words.js";

const card = document.getElementById("scan");
if (card) {
  const says = document.getElementById("scan-says"), view = document.getElementById("scan-view");
  const start = document.getElementById("scan-start"), stop = document.getElementById("scan-stop");
  const instead = say("Type the code, or point the phone’s own camera at the label: it opens the bag’s page.");
  let camera;

  const hindrance = whyNot();
  says.textContent = hindrance ? `${hindrance} ${instead}` : "";
  start.hidden = Boolean(hindrance);
  start.addEventListener("click", scan);
  stop.addEventListener("click", () => { end(); says.textContent = ""; start.focus(); });
  // A page that is left, or put away into the browser's memory, lets go of the camera.
  addEventListener("pagehide", end);

  function whyNot() {
    if (!globalThis.isSecureContext) return say("Browsers open the camera only for pages that came over https or from this machine itself, and this one came another way.");
    if (!navigator.mediaDevices?.getUserMedia) return say("This browser gives pages no camera.");
    if (!("BarcodeDetector" in globalThis)) return say("This browser cannot read labels by itself.");
    return "";
  }

  async function scan() {
    start.hidden = true;
    says.textContent = say("Waiting for the camera.");
    try {
      const detector = new BarcodeDetector({ formats: ["qr_code"] });
      camera = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      view.srcObject = camera;
      view.hidden = stop.hidden = false;
      stop.focus();
      await view.play();
      says.textContent = say("Hold the label in front of the camera.");
      const code = await look(detector);
      if (!code) return; // Stopped meanwhile.
      end();
      says.textContent = say("Opening bag {0}.", code);
      location.href = `/bag?code=${encodeURIComponent(code)}`;
    } catch (error) {
      end();
      says.textContent = `${complaint(error)} ${instead}`;
    }
  }

  function complaint(error) {
    switch (error?.name) {
      case "NotAllowedError": return say("The camera was refused. To use it, allow it for this page in the browser’s settings.");
      case "NotFoundError": return say("There is no camera on this device.");
      case "NotReadableError": return say("The camera is in use elsewhere: close the other program and try again.");
      default: return say("The camera cannot be used.");
    }
  }

  async function look(detector) {
    while (camera) {
      const labels = await detector.detect(view).catch(error => { if (camera) throw error; return []; }); // Stopped meanwhile is no fault.
      for (const found of labels) {
        const code = found.rawValue.match(/\/bag\/([0-9A-Za-z]{6})$/)?.[1] ?? found.rawValue.match(/^[0-9A-Za-z]{6}$/)?.[0];
        if (code) return code;
        says.textContent = say("That is no bag’s label.");
      }
      await new Promise(resolve => setTimeout(resolve, 150));
    }
    return null;
  }

  function end() {
    for (const track of camera?.getTracks() ?? []) track.stop();
    camera = undefined;
    view.srcObject = null;
    view.hidden = stop.hidden = true;
    start.hidden = false;
  }
}
