// What the other scripts reach the page with.

// The element that has this id.
function byId(id) {
  return document.getElementById(id);
}

// Calls `hear` for what happens anywhere on the page; `first` before whoever it happens to.
function on(event, hear, first) {
  document.addEventListener(event, hear, first);
}
