"use strict";
(() => {
  const root = document.documentElement;

  /** The module, from the element that holds it as base64. */
  const moduleBytes = () => {
    const text = atob(document.getElementById("module").textContent);
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i += 1) {
      bytes[i] = text.charCodeAt(i);
    }
    return bytes;
  };

  if (typeof WebAssembly !== "object") {
    root.dataset.state = "no-wasm";
    document.getElementById("status").textContent =
      "This browser has WebAssembly switched off, so nothing can be worked out here.";
    return;
  }
  wasm_bindgen({ module_or_path: moduleBytes() }).then(
    () => {
      new wasm_bindgen.Page(location.hash);
      root.dataset.state = "ready";
    },
    (error) => {
      root.dataset.state = "failed";
      throw error;
    },
  );
})();
