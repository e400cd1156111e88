// Unpacks the calculator and starts it, or says why it does not run. Whatever needs the module comes packed with it: the
// style of its screens and the scripts that reach it stand before it, each up to a 0, which no text holds and with which
// the module begins. The policy of the page names both by their hash.
(function () {
  "use strict";
  var root = document.documentElement;

  // The calculator cannot run: say why, above the tables that the file holds.
  function without(state, words) {
    root.dataset.state = state;
    byId("status").textContent = words;
  }

  // Puts the text that these bytes begin with into the page; gives the bytes from its 0 on.
  function put(name, bytes) {
    var end = bytes.indexOf(0);
    var element = document.createElement(name);
    element.textContent = new TextDecoder().decode(bytes.subarray(0, end));
    document.head.appendChild(element);
    return bytes.subarray(end);
  }

  copies.clean(root);
  copies.listenForKeeping();
  copies.stayOffline();
  if (typeof WebAssembly !== "object" || typeof WebAssembly.instantiate !== "function") {
    without("no-wasm", "The calculator needs WebAssembly, and this browser has it switched off: a lockdown or " +
      "strict security mode does that. Allow it for this file, or open the file in another browser. The tables " +
      "below work without it.");
    return;
  }
  Promise.resolve().then(function () {
    var bytes = put("style", unpack(undense(byId("module").textContent.trim())));
    bytes = put("script", bytes.subarray(1));
    if (typeof shell !== "function") {
      throw new Error("the scripts that come with the calculator were not run");
    }
    return shell(bytes);
  }).catch(function (error) {
    without("failed", "The calculator could not start in this browser. The tables below work without it.");
    throw error;
  });
}());
