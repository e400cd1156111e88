// A hand that drags in the picture: one pointer at a time, one update a frame. What it took hold of is drawn anew
// in every frame, so that the figure around it holds the pointer, and the scale is that of the beginning.
function hands(shell) {
  "use strict";
  var root = document.documentElement;
  var guarded = shell.guarded;
  var held = null;

  function at(event) {
    var scale = held.scale;
    return {
      x: scale.a * event.clientX + scale.c * event.clientY + scale.e,
      y: scale.b * event.clientX + scale.d * event.clientY + scale.f
    };
  }

  function pull() {
    var to = held && held.to;
    if (to) {
      held.to = null;
      shell.put(shell.page().pull(to.x, to.y, shell.now()));
    }
  }

  // Ends the drag; gives what was held.
  function done() {
    var was = held;
    cancelAnimationFrame(held.frame);
    held = null;
    root.removeAttribute("data-drags");
    return was;
  }

  function takeBack() {
    if (held) {
      done();
      shell.remember(shell.page().take_back());
    }
  }

  on("pointerdown", guarded(function (event) {
    var handle = event.target.closest(".handle");
    if (!handle || held || event.button !== 0) {
      return;
    }
    held = { pointer: event.pointerId, scale: handle.ownerSVGElement.getScreenCTM().inverse(), to: null, frame: 0 };
    root.dataset.drags = "";
    try {
      handle.closest("figure").setPointerCapture(event.pointerId);
    } catch (error) {
      // Not a pointer of the browser's own; the document listens all the same.
    }
    var from = at(event);
    shell.page().grip(handle.id, from.x, from.y);
  }));
  on("pointermove", guarded(function (event) {
    if (held && event.pointerId === held.pointer) {
      cancelAnimationFrame(held.frame);
      held.to = at(event);
      held.frame = requestAnimationFrame(guarded(pull));
    }
  }));
  on("pointerup", guarded(function (event) {
    if (held && event.pointerId === held.pointer) {
      held.to = at(event);
      pull();
      done();
      shell.remember(shell.page().let_go());
    }
  }));
  on("pointercancel", guarded(function (event) {
    if (held && event.pointerId === held.pointer) {
      takeBack();
    }
  }));
  on("visibilitychange", guarded(takeBack));
  // Not every browser brings what is in a picture into sight when a key leads to it; above it the answer may stay.
  on("focusin", function (event) {
    if (!held && event.target.matches(".handle")) {
      var box = event.target.getBoundingClientRect();
      if (box.bottom > innerHeight || box.top < innerHeight / 4) {
        scrollBy(0, (box.top + box.bottom - innerHeight) / 2);
      }
    }
  });
  // What another finger touches meanwhile does nothing.
  on("click", function (event) {
    if (held) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
  }, true);
  on("keydown", guarded(function (event) {
    if (held && event.key === "Escape") {
      takeBack();
    } else if (!held && event.target.closest(".handle") && event.key.indexOf("Arrow") === 0) {
      event.preventDefault();
      shell.remember(shell.page().nudge(event.target.id, event.key, shell.now()));
    }
  }));
}
