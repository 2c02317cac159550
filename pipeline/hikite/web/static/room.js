// The reading room's one script: listening from a word, keys, names suggested while typing, the running head.
// Every page works without it.
"use strict";
(() => {
  const $ = (what, where = document) => where.querySelector(what);
  const $$ = (what, where = document) => [...where.querySelectorAll(what)];
  const page = document.body.dataset.page;
  const recording = document.body.dataset.recording;
  const player = $("#player");

  // Listening.
  const listen = (ms) => {
    if (!player) return;
    const go = () => { player.currentTime = ms / 1000; player.play().catch(() => {}); };
    if (player.readyState > 0) go();
    else { player.addEventListener("loadedmetadata", go, { once: true }); player.load(); }
  };
  document.addEventListener("click", (event) => {
    const word = event.target.closest("[data-at], [data-from]");
    if (!word || !player || event.target.closest(".ref") || !getSelection().isCollapsed) return;
    event.preventDefault();
    listen(Number(word.dataset.at ?? word.dataset.from));
  });
  if (player) {
    const words = $$("[data-at]").map((word) => [Number(word.dataset.at), word]);
    let now = null;
    player.addEventListener("timeupdate", () => {
      const at = player.currentTime * 1000 + 60;
      let low = 0, high = words.length;
      while (low < high) { const mid = (low + high) >> 1; if (words[mid][0] <= at) low = mid + 1; else high = mid; }
      const word = low ? words[low - 1][1] : null;
      if (word !== now) { now?.classList.remove("now"); word?.classList.add("now"); now = word; }
    });
  }

  // The running head says where the reader is, and how it stands there.
  const heads = $$(".running");
  if (heads.length) {
    let waiting = false;
    const tell = () => {
      waiting = false;
      for (const head of heads) {
        const verses = $$(".verse", head.parentElement);
        const at = verses.filter((one) => one.getBoundingClientRect().top < 70).pop();
        const parts = at ? [head.dataset.names, at.dataset.score, at.dataset.time] : [];
        head.firstElementChild.textContent = parts.filter(Boolean).join("  ·  ");
      }
    };
    addEventListener("scroll", () => { if (!waiting) { waiting = true; requestAnimationFrame(tell); } }, { passive: true });
    tell();
  }

  // Names suggested while typing.
  const field = $("#concept"), list = $("#concepts");
  if (field && list) {
    let timer = 0, asked = "";
    field.addEventListener("focus", () => field.select());
    field.addEventListener("input", () => {
      clearTimeout(timer);
      timer = setTimeout(async () => {
        const typed = field.value.trim();
        if (typed.length < 2 || typed === asked) return;
        asked = typed;
        const ask = async (more) => {
          const answer = await fetch(`/names?q=${encodeURIComponent(typed)}${more}`);
          return answer.ok ? answer.json() : [];
        };
        let found = await ask("");
        if (!found.length && typed.length > 4) found = await ask("&sound=1");
        if (field.value.trim() !== typed) return;
        list.replaceChildren(...found.map((one) => {
          const option = document.createElement("option");
          option.value = one.label;
          option.label = one.name;
          return option;
        }));
      }, 120);
    });
  }
  for (const button of $$("[data-fill]")) {
    button.addEventListener("click", () => {
      const filled = $(`#${button.dataset.fill}`);
      if (filled) { filled.value = button.dataset.value; filled.focus(); }
    });
  }

  // Keys.
  const toggle = $("#keys");
  let keys = localStorage.getItem("keys") !== "off";
  const tellKeys = () => { toggle.textContent = keys ? "keys on" : "keys off"; toggle.setAttribute("aria-pressed", String(keys)); };
  toggle.addEventListener("click", () => { keys = !keys; localStorage.setItem("keys", keys ? "on" : "off"); tellKeys(); });
  tellKeys();

  const notes = $$(".note");
  let at = notes.findIndex((note) => `#${note.id}` === location.hash);
  const step = (by) => {
    if (!notes.length) return;
    if (at < 0 && by > 0) {
      at = notes.findIndex((note) => note.getBoundingClientRect().top > 60) - 1;
      if (at < -1) at = -1;
    }
    notes[at]?.classList.remove("at");
    at = Math.min(Math.max(at + by, 0), notes.length - 1);
    const note = notes[at];
    note.classList.add("at");
    note.scrollIntoView({ block: "center" });
    ($(".look", note) ?? $(".num", note)).focus({ preventScroll: true });
  };
  const verses = $$(".verse");
  const stepVerse = (by) => {
    const now = document.activeElement?.closest(".verse");
    const first = verses.findIndex((verse) => verse.getBoundingClientRect().bottom > 90);
    const next = now ? verses.indexOf(now) + by : first;
    const verse = verses[Math.min(Math.max(next, 0), verses.length - 1)];
    if (!verse) return;
    verse.scrollIntoView({ block: "center" });
    $(".time", verse)?.focus({ preventScroll: true });
  };
  const verseNow = () => {
    const place = getSelection().anchorNode;
    const chosen = !getSelection().isCollapsed && place?.parentElement?.closest(".verse");
    return chosen || document.activeElement?.closest(".verse") || notes[at]?.closest(".verse") || $(".verse.here");
  };
  const chosenWords = () => {
    if (getSelection().isCollapsed) return "";
    const piece = getSelection().getRangeAt(0).cloneContents();
    for (const beside of piece.querySelectorAll(".ref, .standing, .folio, .apparatus")) beside.remove();
    return piece.textContent.replaceAll("\u2060", "").trim().replace(/\s+/g, " ");
  };
  const send = (id) => $(`#${id}`)?.requestSubmit();
  const follow = (id) => { const link = $(`#${id}`); if (link) location.assign(link.href); };
  const reading = page === "reading";
  const does = {
    n: () => (reading ? step(1) : follow("next")),
    b: () => (reading ? step(-1) : follow("previous")),
    d: () => stepVerse(1),
    u: () => stepVerse(-1),
    a: () => send("accept"),
    x: () => send("reject"),
    c: () => { const first = $("#points") ?? $("#concept"); first?.focus(); first?.select(); },
    s: () => $("#other")?.focus(),
    z: () => send("undo"),
    k: () => (reading ? location.assign(`/recordings/${recording}/check`) : follow("back")),
    l: () => {
      const from = $("[data-from]", verseNow() ?? document);
      if (player && !player.paused) player.pause();
      else if (from) listen(Number(from.dataset.from));
    },
    m: () => {
      const verse = verseNow();
      if (!verse || !recording) return;
      const words = chosenWords();
      location.assign(`/recordings/${recording}/verse/${verse.id.slice(1)}${words ? `?words=${encodeURIComponent(words)}` : ""}`);
    },
    "/": () => ($("#q") ? $("#q").focus() : location.assign("/search")),
  };
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest("input, select, textarea, audio, video");
    if (event.key === "Escape" && typing) { typing.blur(); return; }
    // In a list Enter would do nothing: it sends the form, as in any field.
    if (event.key === "Enter" && typing?.matches("#correct select, #same select")) {
      event.preventDefault();
      typing.form.requestSubmit();
      return;
    }
    if (!keys || typing || event.ctrlKey || event.altKey || event.metaKey || !does[event.key]) return;
    if ("kzlm".includes(event.key) && !recording) return;
    event.preventDefault();
    does[event.key]();
  });
})();
