// Tells how many of a long print have come. It runs while the page is still arriving, and without it the page is whole all the same.
const coming = document.getElementById("coming");
const all = Number(coming.dataset.all);
const said = coming.querySelector("[role=status]");
const leave = said.querySelector("a");
const bar = coming.querySelector("progress");
let toldAt = -1;

const tell = (words, ...rest) => said.replaceChildren(words, ...rest);

const look = () => {
  const here = document.getElementsByClassName("handout").length;
  bar.value = here;
  const ended = document.readyState !== "loading";
  if (document.getElementById("all-came")) {
    tell(`All ${all} handouts are here: print now.`);
  } else if (ended) {
    tell(`Only ${here} of ${all} handouts came before the program stopped sending: load the page again before you print.`);
  } else {
    // Spoken about every tenth of the way; the bar moves all the time.
    const tenth = Math.floor(here * 10 / all);
    if (tenth !== toldAt) {
      toldAt = tenth;
      tell(`${here} of ${all} handouts have come. Print when all are here; you may `, leave, " before.");
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
