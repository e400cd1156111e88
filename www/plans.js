// A plan that leaves as a file and comes back from one; its text and its link are copied.
var plans = (function () {
  "use strict";

  // A plan leaves as a file.
  function save(text) {
    var link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.download = "rigging-plan.json";
    link.click();
    setTimeout(function () {
      URL.revokeObjectURL(link.href);
    }, 60000);
  }

  // A plan comes from a file; its text and its link are copied.
  function listen(shell) {
    on("change", shell.guarded(function (event) {
      var file = event.target.id === "plan-file" && event.target.files[0];
      if (!file) {
        return;
      }
      var reader = new FileReader();
      reader.onload = shell.guarded(function () {
        shell.remember(shell.page().input("plan-opened", reader.result, shell.now()));
      });
      reader.onerror = function () {
        byId("status").textContent = "The file could not be read.";
      };
      reader.readAsText(file);
      // The same file may be opened again.
      event.target.value = "";
    }));
    on("click", function (event) {
      var source = { "plan-copy": "plan-text", "plan-copy-link": "plan-link" }[event.target.id];
      var text = source && byId(source);
      if (!text) {
        return;
      }
      text.focus();
      text.select();
      var told = function (words) {
        byId("status").textContent = words;
        event.target.textContent = words;
      };
      (navigator.clipboard ? navigator.clipboard.writeText(text.value) : Promise.reject()).then(function () {
        told("Copied");
      }, function () {
        told("Selected: copy it with your browser");
      });
    });
  }

  return { save: save, listen: listen };
}());
