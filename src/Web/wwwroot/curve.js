// Shows the curve as its points arrive; without scripts the link waits for all of them.
const place = document.querySelector("[data-curve]");

async function fill() {
  for (let turn = 0; turn < 200; turn++) {
    const answer = await fetch(place.dataset.curve);
    if (!answer.ok) return;
    const open = place.querySelector("details")?.open;
    place.innerHTML = await answer.text();
    if (open) place.querySelector("details").open = true;
    if (place.querySelector("[data-complete=false]") === null) return;
  }
}

place?.addEventListener("click", event => {
  if (!event.target.closest("a[href^='?curve']")) return;
  event.preventDefault();
  event.target.setAttribute("aria-busy", "true");
  fill().catch(() => { location.href = "?curve=true#curve"; });
});
if (place?.querySelector("[data-complete=false]")) fill().catch(() => { /* The link stays. */ });
