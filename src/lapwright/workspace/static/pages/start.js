// The first page: begins a job and goes to its description.
import { post } from "../core/api.js";

const form = document.getElementById("begin");
const said = document.getElementById("begin-said");

function fileName(title) {
  const plain = title.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").toLowerCase();
  return plain.slice(0, 60) || "job";
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const title = form.title.value.trim();
  said.textContent = title ? "" : "the job's name is needed";
  if (!title) return form.title.focus();
  const name = fileName(title);
  try {
    await post("/api/jobs", { name, title, units: form.units.value });
    location.assign(`/jobs/${encodeURIComponent(name)}/describe`);
  } catch (refusal) {
    said.textContent = refusal.status === 409 ? `there is a job ${name}.yaml already: open it below, or give another name` : refusal.faults[0]?.needs || refusal.message;
  }
});
