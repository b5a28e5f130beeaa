// On a narrow screen the job line scrolls sideways: it begins where the page is.
const line = document.querySelector("nav.job"), here = line?.querySelector("[aria-current=step]");
if (here) line.scrollLeft = here.getBoundingClientRect().left - line.getBoundingClientRect().left - (line.clientWidth - here.clientWidth) / 2;
