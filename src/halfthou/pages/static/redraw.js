// Asks twice a second whether this page would look different by now, and if so puts the new sheet
// in the place of the old. Without it the pages work by their links and buttons.
"use strict";

const EVERY_MS = 500;
let busy = false;

function versionAddress(sheet) {
  return "/version?part=" + encodeURIComponent(sheet.dataset.part);
}

function say(text) {
  const told = document.getElementById("told");
  if (told.textContent !== text) told.textContent = text;
}

async function redraw(sheet) {
  const answer = await fetch(location.href, { cache: "no-store" });
  if (answer.status !== 200 && answer.status !== 404) {
    say("This sheet could not be redrawn: a fault of the program, told where it was started.");
    return;
  }
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  const next = fresh.getElementById("sheet");
  const focused = document.activeElement && document.activeElement.id;
  const open = [...sheet.querySelectorAll("details[open]")].map((each) => each.id);
  const top = window.scrollY;
  sheet.replaceWith(next);
  document.title = fresh.title;
  for (const id of open) {
    const details = document.getElementById(id);
    if (details) details.open = true;
  }
  if (focused && focused !== "sheet") {
    const again = document.getElementById(focused);
    if (again) again.focus({ preventScroll: true });
  }
  window.scrollTo({ top, behavior: "instant" });
  say(next.querySelector(".going") ? "Work goes on." : "Redrawn.");
}

async function look() {
  const sheet = document.getElementById("sheet");
  if (busy || document.hidden || sheet.dataset.version === undefined) return;
  busy = true;
  try {
    const answer = await fetch(versionAddress(sheet), { cache: "no-store" });
    if (answer.ok) {
      const { version } = await answer.json();
      if (version !== sheet.dataset.version) await redraw(sheet);
    }
  } catch {
    say("halfthou does not answer: this is the sheet as it last was.");
  } finally {
    busy = false;
  }
}

setInterval(look, EVERY_MS);
document.addEventListener("visibilitychange", look);
