// The button stands in for the browser's own Print command, so it shows only where it can work.
const button = document.getElementById("print");
if (button) {
  button.hidden = false;
  button.addEventListener("click", () => window.print());
}
