// Unpacks the calculator and starts it, or says why it does not run. Whatever needs the module comes packed with it.
(function () {
  "use strict";
  var root = document.documentElement;

  // The calculator cannot run: say why, above the tables that the file holds.
  function without(state, words) {
    root.dataset.state = state;
    byId("status").textContent = words;
  }

  // The scripts that reach the module stand before it, and it begins with a 0, which no text holds. The policy of the
  // page names them by their hash.
  function scripts(bytes) {
    var end = bytes.indexOf(0);
    var script = document.createElement("script");
    script.textContent = new TextDecoder().decode(bytes.subarray(0, end));
    root.appendChild(script).remove();
    if (typeof shell !== "function") {
      throw new Error("the scripts that come with the calculator were not run");
    }
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
    var bytes = scripts(unpack(undense(byId("module").textContent.trim())));
    return shell(bytes);
  }).catch(function (error) {
    without("failed", "The calculator could not start in this browser. The tables below work without it.");
    throw error;
  });
}());
