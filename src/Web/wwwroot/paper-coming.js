// Tells how many of a long print have come. It runs while the page is still arriving, and without it the page is whole all the same.
import { rich, say } from "./words.js";

const coming = document.getElementById("coming");
const all = Number(coming.dataset.all);
const said = coming.querySelector("[role=status]");
const leave = said.querySelector("a");
const bar = coming.querySelector("progress");
let toldAt = -1;

const tell = (...words) => said.replaceChildren(...words);

const look = () => {
  const here = document.getElementsByClassName("handout").length;
  bar.value = here;
  const ended = document.readyState !== "loading";
  if (document.getElementById("all-came")) {
    tell(say("All {0} handouts are here: print now.", all));
  } else if (ended) {
    tell(say("Only {0} of {1} handouts came before the program stopped sending: load the page again before you print.", here, all));
  } else {
    // Spoken about every tenth of the way; the bar moves all the time.
    const tenth = Math.floor(here * 10 / all);
    if (tenth !== toldAt) {
      toldAt = tenth;
      tell(...rich("{0} of {1} handouts have come. Print when all are here; you may {2} before.", here, all, leave));
    }
  }
  if (ended) {
    clearInterval(looking);
  }
};

bar.hidden = false;
const looking = setInterval(look, 250);
document.addEventListener("DOMContentLoaded", look);
look();
