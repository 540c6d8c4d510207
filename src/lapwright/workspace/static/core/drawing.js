// A drawing of the packet, SVG text made on this machine, put on the page so that it takes the page's lettering.
export function drawing(place, text, words) {
  const svg = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", words);
  place.replaceChildren(document.importNode(svg, true));
  place.classList.add("drawing");
}
