// Says the texts of scripts in the page's language. The English text is the key; the page brings what its language says otherwise.
const given = Object.assign({}, ...[...document.querySelectorAll("script[data-words]")].map(block => JSON.parse(block.textContent)));
const language = document.documentElement.lang;

/** A text in pieces, for one with an element among its values. */
export const rich = (text, ...values) => (given[text] ?? text).split(/\{(\d+)\}/).map((piece, at) => at % 2 === 0 ? piece : values[piece]);

/** A text with its values: say("{0} of {1}", 3, 4). */
export const say = (text, ...values) => rich(text, ...values).join("");

/** A count of things: many(2, "mark") is 2 marks. */
export const many = (count, thing) => say(`{0} ${thing}${count === 1 ? "" : "s"}`, count.toLocaleString(language));

/** The time of day of a moment. */
export const clock = moment => new Date(moment).toLocaleTimeString(language);
