// Asks the server: plain JSON, changes with the page's token, and views that tell how far they are.
const token = document.querySelector('meta[name="token"]').content;

// What the server refused: faults as the command line tells them, or words.
export class Refusal extends Error {
  constructor(status, body) {
    super(body.words || "the server did not answer as it should");
    this.status = status;
    this.faults = body.faults || [];
    this.found = body.found || null;
  }
}

async function read(response) {
  const body = await response.json().catch(() => ({}));
  if (!response.ok) throw new Refusal(response.status, body);
  return body;
}

async function ask(address, options) {
  try {
    return await fetch(address, options);
  } catch (error) {
    if (error.name === "AbortError") throw error;
    throw new Refusal(0, { words: "the server does not answer; start it again in its terminal and it goes on where it was" });
  }
}

export async function get(address, signal) {
  return read(await ask(address, { signal }));
}

export async function post(address, value, signal) {
  const headers = { "content-type": "application/json", "x-lapwright-token": token };
  return read(await ask(address, { method: "POST", headers, body: JSON.stringify(value), signal }));
}

// A file's bytes sent as they are.
export async function send(address, file, signal) {
  const headers = { "content-type": "application/octet-stream", "x-lapwright-token": token };
  return read(await ask(address, { method: "POST", headers, body: file, signal }));
}

// A view of a job: tell(words) and draft(value) on the way, the value at the end.  Aborting the signal stops the work.
// acts: it is one that writes files.
export async function view(job, name, options = {}, { tell, draft, signal, acts = false } = {}) {
  const query = new URLSearchParams(options).toString();
  const way = acts ? { method: "POST", headers: { "x-lapwright-token": token } } : {};
  const response = await ask(`/api/jobs/${encodeURIComponent(job)}/views/${name}${query ? "?" + query : ""}`, { signal, ...way });
  if (!response.ok) return read(response);
  let last = null;
  for await (const line of lines(response)) {
    const said = JSON.parse(line);
    if ("tell" in said) tell?.(said.tell);
    else if ("draft" in said) draft?.(said.draft);
    else last = said;
  }
  if (last === null) throw new Refusal(0, { words: "the server ended in the middle of its answer" });
  if ("faults" in last) throw new Refusal(422, { words: last.stopped ? "stopped" : "the job can't be planned as it is", faults: last.faults });
  return last.view;
}

async function* lines(response) {
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let left = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    const parts = (left + value).split("\n");
    left = parts.pop();
    yield* parts;
  }
  if (left) yield left;
}
