// Copies of the page: the single file it hands out, one that a browser saved, and the hosted one that stays on a device.
var copies = (function () {
  "use strict";
  var root = document.documentElement;

  // Takes back what a start has done, so that a copy saved by the browser starts as the file did.
  function clean(top) {
    Array.from(top.attributes).forEach(function (attribute) {
      if (/^data-(?!copy$|address$)/.test(attribute.name)) {
        top.removeAttribute(attribute.name);
      }
    });
    ["#status", "#paper", "#first", "#app"].forEach(function (place) {
      top.querySelector(place).textContent = "";
    });
    top.querySelectorAll("[open]").forEach(function (details) {
      details.removeAttribute("open");
    });
    top.querySelectorAll("head script, style ~ style").forEach(function (packed) {
      packed.remove();
    });
    top.querySelector("#news").hidden = top.querySelector("#other").hidden = true;
    top.querySelector("title").textContent = "Rigging loads";
  }

  // The single file as it was packed, from what is here: nothing is asked for.
  function file() {
    var copy = root.cloneNode(true);
    clean(copy);
    copy.dataset.copy = "file";
    copy.querySelectorAll("link").forEach(function (link) {
      link.remove();
    });
    var policy = copy.querySelector("meta[http-equiv]");
    policy.content = policy.content.split("; worker-src")[0];
    return "<!doctype html>\n" + copy.outerHTML;
  }

  function listenForKeeping() {
    on("click", function (event) {
      if (event.target.id !== "keep") {
        return;
      }
      var link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([file()], { type: "text/html" }));
      link.download = "rigging-loads.html";
      link.click();
      setTimeout(function () {
        URL.revokeObjectURL(link.href);
      }, 60000);
    });
  }

  // The hosted copy stays on the device. A newer one is offered once it is there as a whole, never forced.
  function stayOffline() {
    var workers = navigator.serviceWorker;
    if (root.dataset.copy !== "hosted" || !/^https?:$/.test(location.protocol) || !workers) {
      return;
    }
    workers.register("service-worker.js").then(function (registration) {
      function offer() {
        if (registration.waiting && workers.controller) {
          byId("news").hidden = false;
          byId("status").textContent = "A new version is ready: see the end of the page.";
        }
      }
      function follow() {
        if (registration.installing) {
          registration.installing.addEventListener("statechange", offer);
        }
      }
      registration.addEventListener("updatefound", follow);
      follow();
      offer();
      byId("use-new").addEventListener("click", function () {
        workers.addEventListener("controllerchange", function () {
          location.reload();
        });
        if (registration.waiting) {
          registration.waiting.postMessage("use");
        }
      });
      on("visibilitychange", function () {
        if (document.visibilityState === "visible") {
          registration.update().catch(function () {
            // No network, or half a version: what is here goes on.
          });
        }
      });
    }).catch(function () {
      // The browser keeps nothing, or half a version came: the page works all the same.
    });
  }

  return { clean: clean, listenForKeeping: listenForKeeping, stayOffline: stayOffline };
}());
