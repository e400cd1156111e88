// What the other scripts reach the page with.

// The element that has this id.
function byId(id) {
  return document.getElementById(id);
}

// Calls `hear` for what happens anywhere on the page.
function on(event, hear) {
  document.addEventListener(event, hear);
}
