// The sheet "file": the job file itself, with its errors at their lines; `#line-12` in the address goes to line 12.
import { on } from "../core/job.js";
import { textPane } from "../describe/textpane.js";

const pane = textPane();
document.getElementById("file").append(pane.element);

function follow() {
  const found = /^#line-(\d+)$/.exec(location.hash);
  if (found) pane.goTo(Number(found[1]));
}

let isFirst = true;
on("changed", () => {
  if (isFirst) follow();
  isFirst = false;
});
addEventListener("hashchange", follow);
