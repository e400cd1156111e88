// Starts the module, whose bytes these are, tells it what happens, and puts the strings it gives in place. It lays out
// nothing.
function shell(bytes) {
  "use strict";
  var root = document.documentElement;
  var page = null;
  var restarted = false;
  // What the browser keeps for the next time, and under which name.
  var KEPT = "rigging-loads";
  var kept = "";
  // Whether what is in the place for paper was put there to be printed as it is.
  var prepared = false;

  function two(number) {
    return (number < 10 ? "0" : "") + number;
  }

  function now() {
    var date = new Date();
    return date.getFullYear() + "-" + two(date.getMonth() + 1) + "-" + two(date.getDate()) + " " +
      two(date.getHours()) + ":" + two(date.getMinutes());
  }

  // What is unfolded stays so while numbers change: by its id, so that it may move; else by its place.
  function unfolded(place) {
    var open = {};
    Array.from(place.querySelectorAll("details")).forEach(function (details, at) {
      open[details.id || at] = details.open;
    });
    return open;
  }

  // What was last put where: a browser would write it differently.
  var shown = new WeakMap();

  // An answer that stays in sight must leave room for what moves under it.
  function leaveRoom() {
    var stays = byId(root.dataset.way === "lip" ? "answer" : "strip");
    root.toggleAttribute("data-tall", stays !== null && stays.offsetHeight > innerHeight / 2 &&
      stays.offsetWidth > innerWidth / 2);
  }

  function put(update) {
    if (!update) {
      return;
    }
    update.put.forEach(function (part) {
      var place = byId(part[0]);
      // In a place of entries something may stand that was typed.
      if (place && (shown.get(place) !== part[1] || place.querySelector("input, select, textarea"))) {
        // What stands around it is no longer what was put there.
        for (var around = place; around; around = around.parentElement) {
          shown.delete(around);
        }
        shown.set(place, part[1]);
        var open = unfolded(place);
        var focus = place.contains(document.activeElement) ? document.activeElement.id : "";
        place.innerHTML = part[1];
        // A message marks its entry; what was understood does not.
        if (place.className === "message") {
          place.parentNode.querySelectorAll("[aria-describedby]").forEach(function (entry) {
            entry.setAttribute("aria-invalid", /^[^<]/.test(part[1]));
          });
        }
        place.querySelectorAll("details").forEach(function (details, at) {
          if (!details.id || details.id in open) {
            details.open = open[details.id || at] === true;
          }
        });
        var again = focus && byId(focus);
        if (again) {
          again.focus({ preventScroll: true });
        }
      }
    });
    update.values.forEach(function (part) {
      var place = byId(part[0]);
      if (place && place.value !== part[1]) {
        place.value = part[1];
      }
    });
    update.hidden.forEach(function (part) {
      var place = byId(part[0]);
      if (place) {
        place.hidden = part[1];
      }
    });
    if (update.save) {
      plans.save(update.save);
    }
    prepared = update.print === true;
    if (prepared) {
      requestAnimationFrame(function () {
        window.print();
      });
    }
    if (update.way) {
      root.dataset.way = update.way;
    }
    leaveRoom();
    if (update.title) {
      document.title = update.title;
    }
    if (update.said) {
      byId("status").textContent = update.said;
    }
    if (update.focus) {
      var target = byId(update.focus);
      if (target) {
        // What is typed into next may be folded away.
        for (var fold = target.closest("details"); fold; fold = fold.parentElement.closest("details")) {
          fold.open = true;
        }
        target.focus();
      }
    }
  }

  // In class the keys of a presenter's remote step from stop to stop, unless something is being typed.
  function presented(event) {
    var keys = { ArrowRight: "next-stop", PageDown: "next-stop", ArrowLeft: "previous-stop", PageUp: "previous-stop",
      b: "guess-show", B: "guess-show", ".": "guess-show" };
    var typing = /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName);
    var id = typing ? (event.target.id === "guess" && event.key === "Enter" && "guess-set") : keys[event.key];
    var target = id && byId(id);
    if (target && !event.defaultPrevented && !event.altKey && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      target.click();
    }
  }

  // The address follows what is on the screen; the browser keeps the memory beside it.
  function remember(update) {
    put(update);
    if (update && update.kept !== kept) {
      try {
        localStorage.setItem(KEPT, update.kept);
        kept = update.kept;
      } catch (error) {
        // A browser that keeps nothing still has the page and its link. A plan has no other place: that is said.
      }
      root.toggleAttribute("data-unkept", kept !== update.kept);
    }
    if (update && update.fragment) {
      try {
        history.replaceState(update.memory, "", "#" + update.fragment);
      } catch (error) {
        // A browser that forbids it still has the page; only the link is not kept.
      }
    }
  }

  function recall() {
    try {
      kept = localStorage.getItem(KEPT) || "";
      page.recall(kept);
    } catch (error) {
      // As above.
    }
  }

  // Whether another window has kept something that this one would write over: it is said before anything is changed here.
  function lookElsewhere() {
    try {
      var other = byId("other");
      other.hidden = (localStorage.getItem(KEPT) || kept) === kept;
      root.toggleAttribute("data-other", !other.hidden);
      if (!other.hidden) {
        byId("status").textContent = other.firstChild.textContent;
      }
    } catch (error) {
      // As above.
    }
  }

  // What stands in the entries, by id.
  function entered() {
    return Array.from(document.querySelectorAll("#entries input, #entries select, #entries textarea")).map(function (entry) {
      return [entry.id, entry.value];
    });
  }

  // The module stopped and another is started, once: what stood in the entries goes back into them.
  function restart(error) {
    var typed = entered();
    page = null;
    failed();
    if (restarted) {
      throw error;
    }
    restarted = true;
    begin().then(function () {
      typed.forEach(function (entry) {
        var place = byId(entry[0]);
        if (place && place.value !== entry[1]) {
          place.value = entry[1];
          enter(place, remember);
        }
      });
      byId("status").textContent =
        "The calculator stopped and was started again, with what you had typed. Look through your numbers.";
      root.dataset.state = "restarted";
    }).catch(failed);
    setTimeout(function () {
      throw error;
    });
  }

  // Where the page lies: asked for over a network it knows, else where the packer was told that it is.
  function address() {
    return /^https?:$/.test(location.protocol) ? location.href.split("#")[0] : root.dataset.address;
  }

  // Whatever printing was asked for by, what comes out is the sheet made for paper.
  function listenForPrinting() {
    window.addEventListener("beforeprint", guarded(function () {
      if (!prepared) {
        put(page.paper(now()));
      }
    }));
    window.addEventListener("beforeprint", function () {
      // What cannot be worked out anew is not printed either.
      if (!page) {
        byId("paper").textContent = "";
      }
    });
  }

  // Nothing that was worked out stays in sight without a module; what was typed does.
  function failed() {
    page = null;
    root.dataset.state = "failed";
    byId("status").textContent =
      "The calculator stopped. What you typed is still here. Reload the page to start it again.";
  }

  function guarded(work) {
    return function (event) {
      if (!page) {
        return;
      }
      try {
        work(event);
      } catch (error) {
        restart(error);
      }
    };
  }

  function go() {
    var memory = typeof history.state === "string" ? history.state : "";
    remember(page.go(location.hash, memory, now()));
  }

  function is(name, target) {
    return target.id && target.tagName === name;
  }

  function enter(target, take) {
    take(page.input(target.id, target.value, now()));
  }

  function listen() {
    window.addEventListener("resize", leaveRoom);
    window.addEventListener("focus", lookElsewhere);
    window.addEventListener("hashchange", guarded(function () {
      go();
      window.scrollTo(0, 0);
    }));
    on("visibilitychange", guarded(function () {
      if (document.visibilityState === "visible") {
        remember(page.wake(now()));
      }
    }));
    on("keydown", guarded(presented));
    on("input", guarded(function (event) {
      if (is("INPUT", event.target) || is("TEXTAREA", event.target)) {
        enter(event.target, event.target.type === "range" ? put : remember);
      }
    }));
    on("keydown", guarded(function (event) {
      var steps = { ArrowUp: "more:", ArrowDown: "less:" }[event.key];
      if (steps && is("INPUT", event.target) && event.target.type === "text" && !event.target.matches(".words-in")) {
        event.preventDefault();
        remember(page.press(steps + event.target.id, now()));
      }
    }));
    on("change", guarded(function (event) {
      // A slider is kept when it is let go of, like a hand in the picture: browsers soon refuse many addresses at once.
      if (is("SELECT", event.target) || event.target.type === "range") {
        enter(event.target, remember);
      } else if (is("INPUT", event.target) || is("TEXTAREA", event.target)) {
        remember(page.leave(event.target.id, event.target.value, now()));
      }
    }));
    on("click", guarded(function (event) {
      var button = event.target.closest("button");
      // The way from a number to its formula.
      var opened = button && byId(button.dataset.opens);
      if (opened) {
        opened.open = true;
        opened.firstElementChild.focus();
      }
      if (button && button.id === "take-other") {
        // What is kept counts, not what the address holds; of a question of the plan, what its drop holds.
        var drop = document.querySelector("#plan-of a");
        history.replaceState((history.state || "") + "*", "", drop ? drop.hash : location.href);
        location.reload();
      } else if (button && button.id) {
        remember(page.press(button.id, now()));
      }
    }));
  }

  // A new instance of the module, where the last one was.
  function begin() {
    var bindings = instance();
    return bindings({ module_or_path: bytes.slice() }).then(function () {
      page = new bindings.Module(address());
      recall();
      go();
    });
  }

  return begin().then(function () {
    listen();
    var shell = { page: function () { return page; }, put: put, remember: remember, guarded: guarded, now: now };
    plans.listen(shell);
    hands(shell);
    listenForPrinting();
    root.dataset.state = "ready";
  });
}
