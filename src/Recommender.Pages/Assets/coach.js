// Niceties only: every page works without this file.
for (const form of document.querySelectorAll("form[data-auto]")) {
  form.querySelector("button").hidden = true;
  form.addEventListener("change", () => form.submit());
}
for (const button of document.querySelectorAll("[data-print]")) {
  button.hidden = false;
  button.addEventListener("click", () => print());
}
// A piece of a bar leads to its line; the line opens.
function open() {
  const at = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  for (let details = at && at.closest("details"); details; details = details.parentElement.closest("details")) details.open = true;
}
addEventListener("hashchange", open);
open();
