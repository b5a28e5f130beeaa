// Fills in what takes a search: the page stands meanwhile, and a link does the same without scripts.
for (const place of document.querySelectorAll("[data-room]:not([data-room=\"\"])")) {
  fetch(place.dataset.room).then(answer => answer.ok ? answer.text() : null).then(html => {
    if (html) { place.innerHTML = html; }
  }).catch(() => { /* The link stays. */ });
}
