// Shows how the lines are understood while they are typed: the same answer as the button's, a moment after each change.
import { say } from "./words.js";

const form = document.getElementById("typed");
const lines = form.elements["Form.Lines"];
let waiting = 0, asked = 0;

lines.addEventListener("input", () => {
  clearTimeout(waiting);
  waiting = setTimeout(check, 250);
});

async function check() {
  const mine = ++asked;
  const answer = await fetch(form.querySelector("[data-check]").formAction, { method: "POST", body: new FormData(form) }).catch(() => null);
  if (!answer?.ok || mine !== asked) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  for (const id of ["understood-lines", "typed-list"]) {
    document.getElementById(id).replaceChildren(...document.importNode(page.getElementById(id), true).childNodes);
  }
  const wrong = document.querySelectorAll("#understood-lines .wrong").length;
  document.getElementById("typed-says").textContent = wrong === 0 ? say("Every line is understood.") : wrong === 1 ? say("1 line is not understood.") : say("{0} lines are not understood.", wrong);
}
