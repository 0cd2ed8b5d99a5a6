// Light or dark: the device's choice unless the reader made one. Runs before anything is drawn, so nothing flashes.
(function () {
  "use strict";
  var KEY = "casetrue:scheme";
  var root = document.documentElement;
  function kept() {
    try {
      return localStorage.getItem(KEY);
    } catch (blocked) {
      return null;
    }
  }
  function keep(name) {
    try {
      localStorage.setItem(KEY, name);
    } catch (blocked) {
      // Not remembered then; the switch still works on this page.
    }
  }
  function show(name) {
    root.dataset.scheme = name;
  }
  var chosen = kept();
  if (chosen === "light" || chosen === "dark") show(chosen);
  document.addEventListener("DOMContentLoaded", function () {
    var button = document.querySelector("button.scheme");
    if (!button) return;
    var prefers = window.matchMedia("(prefers-color-scheme: dark)");
    function isDark() {
      return root.dataset.scheme ? root.dataset.scheme === "dark" : prefers.matches;
    }
    function name() {
      button.querySelector("[data-name]").textContent = isDark() ? button.dataset.light : button.dataset.dark;
    }
    button.addEventListener("click", function () {
      var next = isDark() ? "light" : "dark";
      show(next);
      keep(next);
      name();
    });
    prefers.addEventListener("change", name);
    name();
    button.hidden = false;
    document.addEventListener("keydown", function (event) {
      if (event.key !== "Escape") return;
      var open = document.querySelector("nav.around details[open]");
      if (!open) return;
      open.open = false;
      open.querySelector("summary").focus();
    });
    document.addEventListener("click", function (event) {
      var open = document.querySelector("nav.around details[open]");
      if (open && !open.contains(event.target)) open.open = false;
    });
  });
})();
