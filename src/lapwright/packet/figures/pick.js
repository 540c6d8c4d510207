"use strict";
// Reads the tables that stand on the page: on the colder and the windier side of a reading, nothing in between.
(function () {
  var form = document.getElementById("readings");
  if (!form) { return; }
  form.hidden = false;

  function reading(name) {
    var field = form.elements[name];
    return field && field.value.trim() !== "" && isFinite(field.valueAsNumber) ? field.valueAsNumber : null;
  }

  // Where a reading falls among heads: cold goes by the nearest head that is no warmer, wind by one no lighter.
  function place(heads, name) {
    var at = reading(name), found = -1, best = null;
    if (at === null) { return null; }
    heads.forEach(function (head, index) {
      if (head.dataset.value === undefined) { return; }
      var value = Number(head.dataset.value);
      var safe = name === "wind" ? value >= at : value <= at;
      var nearer = best === null || (name === "wind" ? value < best : value > best);
      if (safe && nearer) { best = value; found = index; }
    });
    return found;
  }

  function show(table) {
    var rows = Array.from(table.tBodies[0].rows), heads = Array.from(table.tHead.rows[0].cells);
    var told = document.querySelector('[data-for="' + table.id + '"]');
    var byRow = table.dataset.rows, byColumn = table.dataset.columns;
    table.querySelectorAll(".row,.column,.cell").forEach(function (one) {
      one.classList.remove("row", "column", "cell");
    });
    told.textContent = "";
    var row = byRow ? place(rows.map(function (one) { return one.cells[0]; }), byRow) : null;
    var column = byColumn ? place(heads, byColumn) : null;
    if (row === -1 || column === -1) {
      told.textContent = (row === -1 || byColumn !== "wind" ? "Colder" : "Windier") +
        " than this table goes: it says nothing.";
      return;
    }
    if (!byRow && column !== null) {
      row = rows.findIndex(function (one) { return one.hasAttribute("data-own"); });
    }
    if (row !== null && row >= 0 && byRow) { rows[row].classList.add("row"); }
    if (column !== null) {
      rows.forEach(function (one) { one.cells[column].classList.add("column"); });
    }
    if (byRow && byColumn && (row === null || column === null)) { return; }
    if (row === null || row < 0) { return; }
    var cell = column !== null ? column : 1;
    rows[row].cells[cell].classList.add("cell");
    var text = rows[row].cells[cell].textContent;
    var unit = table.dataset.unit && isFinite(Number(text)) ? " " + table.dataset.unit : "";
    told.textContent = "Read at " + rows[row].cells[0].textContent + ", " + heads[cell].textContent + ": " + text + unit;
  }

  function showAll() {
    document.querySelectorAll("table[data-rows],table[data-columns]").forEach(show);
  }

  form.addEventListener("input", showAll);
  form.addEventListener("reset", function () { setTimeout(showAll, 0); });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
}());
