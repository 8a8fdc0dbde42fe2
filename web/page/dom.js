// An element with its properties and what is in it. Titles and answers are data: text, never markup.
export function element(name, setting = {}, ...inside) {
  const made = Object.assign(document.createElement(name), setting);
  made.append(...inside);
  return made;
}
