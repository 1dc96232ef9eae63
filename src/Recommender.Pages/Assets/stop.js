// Loaded while a page still comes in: stopping the work keeps what has come.
document.addEventListener("click", click => {
  if (document.readyState !== "loading" || !click.target.closest("[data-stop]")) return;
  click.preventDefault();
  stop();
  document.querySelector(".stop-work").hidden = true;
  document.querySelector(".stopped").hidden = false;
});
