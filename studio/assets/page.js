// Makes the page of a course move: one chapter at a time, boards that step, questions that answer.
// Everything that it shows is in the page already; without it, the page reads as a book.
'use strict';
(() => {
  const root = document.documentElement;
  root.classList.add('scripted');
  const all = (selector, from = document) => [...from.querySelectorAll(selector)];
  const calm = matchMedia('(prefers-reduced-motion: reduce)');

  // ---- light and dark ---------------------------------------------------------------------------
  const themeButton = document.querySelector('.theme');
  const prefersDark = matchMedia('(prefers-color-scheme: dark)');
  const themeKey = 'pointwright-theme';
  const remembered = () => {
    try {
      return localStorage.getItem(themeKey);
    } catch {
      return null; // no storage here, as for some pages opened from disk
    }
  };
  const showTheme = (theme) => {
    if (theme === 'light' || theme === 'dark') root.dataset.theme = theme;
    const dark = (root.dataset.theme ?? (prefersDark.matches ? 'dark' : 'light')) === 'dark';
    themeButton.setAttribute('aria-pressed', String(dark));
    return dark;
  };
  showTheme(remembered());
  prefersDark.addEventListener('change', () => showTheme());
  themeButton.addEventListener('click', () => {
    const theme = showTheme() ? 'light' : 'dark';
    showTheme(theme);
    try {
      localStorage.setItem(themeKey, theme);
    } catch {
      // Then it lasts as long as the page.
    }
  });

  // ---- boards that step -------------------------------------------------------------------------
  const button = (text, label) => {
    const made = document.createElement('button');
    made.type = 'button';
    made.textContent = text;
    if (label) made.setAttribute('aria-label', label);
    return made;
  };

  // Slides each checker that changed its place from where one of its kind left.
  const slide = (before, live) => {
    if (calm.matches || !live.animate) return;
    const checkers = (from) => all('.pw-layer-checkers > use', from);
    const key = (use) => ['href', 'x', 'y'].map((name) => use.getAttribute(name)).join(' ');
    const stays = new Set(before.map(key));
    const now = checkers(live);
    const kept = new Set(now.map(key));
    const left = before.filter((use) => !kept.has(key(use)));
    for (const use of now.filter((each) => !stays.has(key(each)))) {
      const at = left.findIndex((each) => each.getAttribute('href') === use.getAttribute('href'));
      if (at < 0) continue;
      const [from] = left.splice(at, 1);
      const by = (name) => from.getAttribute(name) - use.getAttribute(name);
      use.animate(
        [{ transform: `translate(${by('x')}px, ${by('y')}px)` }, { transform: 'none' }],
        { duration: 320, easing: 'ease-in-out' },
      );
    }
  };

  const makeStep = (scene) => {
    const live = scene.querySelector('.live');
    const description = scene.querySelector('svg desc');
    const steps = all('.steps > li', scene);
    const frames = [];
    frames[0] = { text: description.textContent, nodes: [...live.cloneNode(true).childNodes] };
    for (const group of scene.querySelector('template').content.querySelectorAll('[data-step]')) {
      const [text, ...nodes] = [...group.childNodes].filter((node) => node.nodeType === 1);
      frames[group.dataset.step] = { text: text.textContent, nodes };
    }
    for (let i = 1; i < steps.length; ++i) frames[i] ??= frames[i - 1];

    const controls = document.createElement('div');
    controls.className = 'controls';
    controls.setAttribute('role', 'group');
    controls.setAttribute('aria-label', 'Steps on this board');
    const first = button('Start', 'Back to the start');
    const back = button('Back', 'One step back');
    const next = button('Next', 'Next step');
    next.className = 'next';
    const count = document.createElement('span');
    count.className = 'count';
    const spoken = document.createElement('p');
    spoken.className = 'spoken';
    spoken.setAttribute('role', 'status');
    controls.append(first, back, count, next);
    scene.querySelector('.telling').append(controls, spoken);

    let at = 0;
    const show = (to) => {
      const step = Math.min(Math.max(to, 0), steps.length - 1);
      const before = all('.pw-layer-checkers > use', live);
      if (frames[step] !== frames[at]) {
        live.replaceChildren(...frames[step].nodes.map((node) => node.cloneNode(true)));
        description.textContent = frames[step].text;
        if (Math.abs(step - at) === 1) slide(before, live);
      }
      const moved = step !== at;
      at = step;
      steps.forEach((each, i) => {
        each.classList.toggle('now', i === at);
        if (i === at) each.setAttribute('aria-current', 'step');
        else each.removeAttribute('aria-current');
      });
      // aria-disabled instead of disabled, so that the focus stays where it is.
      for (const each of [first, back]) each.setAttribute('aria-disabled', String(at === 0));
      next.setAttribute('aria-disabled', String(at === steps.length - 1));
      count.textContent = `${at} of ${steps.length - 1}`;
      const said = [...steps[at].children].map((each) => each.textContent).join(' ');
      if (moved) spoken.textContent = `Step ${count.textContent}. ${said}`;
    };
    first.addEventListener('click', () => show(0));
    back.addEventListener('click', () => show(at - 1));
    next.addEventListener('click', () => show(at + 1));
    scene.addEventListener('keydown', (event) => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
      const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: steps.length - 1 }[event.key];
      if (to === undefined) return;
      event.preventDefault();
      show(to);
    });
    show(0);
  };

  // ---- plays as somebody types them -------------------------------------------------------------
  // A play is known by what it changes: how many checkers leave and reach each place, and where it
  // says that it hits. So order, and whether one checker's moves are merged, make no difference.
  const place = (word) => (word === 'bar' ? 25 : word === 'off' ? 0 : Number(word));
  const readPlay = (text) => {
    const play = { change: new Map(), hits: new Set(), stops: new Set() };
    const add = (at, by) => play.change.set(at, (play.change.get(at) ?? 0) + by);
    const journeys = text.toLowerCase().replace(/[,;:]/g, ' ').replace(/\s*\/\s*/g, '/').trim();
    if (/^(no play|none|-+)$/.test(journeys)) return play;
    for (const word of journeys.split(/\s+/)) {
      const parts = /^((?:bar|\d{1,2})(?:\/\d{1,2}\*?)*(?:\/off)?)(?:\((\d)\))?$/.exec(word);
      if (!parts) return null;
      const stops = parts[1].split('/');
      const times = Number(parts[2] ?? 1);
      const places = stops.map((stop) => place(stop.replace('*', '')));
      if (stops.length < 2 || times < 1 || times > 4 || places.some((at) => at > 25)) return null;
      add(places[0], -times);
      add(places[places.length - 1], times);
      stops.forEach((stop, i) => {
        if (i > 0) play.stops.add(places[i]);
        if (stop.endsWith('*')) play.hits.add(places[i]);
      });
    }
    return play;
  };
  const changeKey = (play) =>
    [...play.change].filter(([, by]) => by !== 0).sort(([a], [b]) => a - b).join(' ');

  // The answers that a typed play may mean: those that change the same, narrowed by where it hits
  // or stops if that tells them apart.
  const meant = (typed, answers) => {
    const same = answers.filter((answer) => changeKey(answer) === changeKey(typed));
    if (same.length < 2) return same;
    const hits = (answer) => [...answer.hits].every((at) => typed.stops.has(at));
    const named = same.filter((answer) => [...typed.hits].every((at) => answer.hits.has(at)) && hits(answer));
    const most = Math.max(...named.map((answer) => answer.hits.size));
    return named.length ? named.filter((answer) => answer.hits.size === most) : same;
  };
  // For tests, and for whoever looks into the page with the browser's tools.
  root.pointwright = { readPlay, changeKey, meant };

  // ---- questions --------------------------------------------------------------------------------
  const listed = (plays) => {
    const shown = plays.slice(0, 12).map((answer) => answer.text).join('; ');
    return plays.length > 12 ? `${shown}; and ${plays.length - 12} more` : shown;
  };
  const judges = {
    choice: (form) => {
      const picked = form.querySelector('input:checked');
      if (!picked) return [null, 'Pick one of the answers first.'];
      const reply = picked.closest('li').querySelector('.reply');
      return ['right' in reply.dataset, reply.textContent];
    },
    number: (form) => {
      const text = form.querySelector('input').value.trim().replace(',', '.');
      if (!/^[-+]?\d+(\.\d+)?$/.test(text)) return [null, 'Type a number first, in digits.'];
      const off = Math.abs(Number(text) - Number(form.dataset.number));
      return [off <= Number(form.dataset.tolerance) + 1e-9, ''];
    },
    play: (form) => {
      const answers = [...form.querySelector('template').content.querySelectorAll('li')].map((li) => ({
        ...readPlay(li.dataset.play),
        text: li.dataset.play,
        legal: 'legal' in li.dataset,
        right: 'right' in li.dataset,
        reply: li.textContent,
      }));
      const text = form.querySelector('input').value;
      const typed = text.trim() ? readPlay(text) : null;
      if (!typed) return [null, 'That does not read as a play. Write from and to, like 13/7 8/7.'];
      const found = meant(typed, answers.filter((answer) => answer.change));
      if (found.length > 1 && new Set(found.map((answer) => answer.reply + answer.right)).size > 1)
        return [null, `That can be played in more than one way. Say which: ${listed(found)}.`];
      if (found.length) {
        const [answer] = found;
        const said = answer.legal ? '' : 'Not allowed. ';
        return [answer.right, said + answer.reply, answer.legal && !answer.right];
      }
      const legal = answers.filter((answer) => answer.legal);
      return [false, `That is not one of the legal plays of ${form.dataset.roll}. Allowed: ${listed(legal)}.`];
    },
  };
  // Two places pointed at, one after the other, are a move, written into the field for the answer.
  const takePicks = (picks, field) => {
    let from = null;
    picks.addEventListener('click', (event) => {
      const spot = event.target.closest('[data-place]');
      if (!spot) return;
      from?.classList.remove('picked');
      if (from && from !== spot) {
        field.value = `${field.value.trim()} ${from.dataset.place}/${spot.dataset.place}`.trim();
        field.dispatchEvent(new Event('input', { bubbles: true }));
        from = null;
      } else {
        from = from ? null : spot;
        from?.classList.add('picked');
      }
    });
  };
  const takeAnswers = (form) => {
    const picks = form.closest('.question').querySelector('.picks');
    if (picks) takePicks(picks, form.querySelector('input'));
    const verdict = form.querySelector('.verdict');
    const answer = form.closest('.question').querySelector('.answer');
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      const [right, reply, allowed] = judges[form.dataset.kind](form);
      const why = answer.querySelector('.why')?.textContent ?? '';
      const word = right ? 'Right.' : allowed ? 'Allowed, but not this one.' : 'Not yet.';
      verdict.className = `verdict ${right === null ? 'unread' : right ? 'right' : 'wrong'}`;
      verdict.textContent =
        right === null ? reply : [word, reply, right && why !== reply ? why : ''].filter(Boolean).join(' ');
    });
    form.addEventListener('input', () => {
      verdict.className = 'verdict';
      verdict.textContent = '';
    });
  };

  // ---- one chapter at a time --------------------------------------------------------------------
  const pages = all('.cover, .chapter');
  const courseTitle = document.querySelector('.masthead h1').textContent;

  // A chapter stands in <noscript>, which a browser with scripts takes as plain text: so the first
  // board does not wait for the boards of all chapters. It is laid out when it is first opened.
  const laidOut = new Set();
  const layOut = (page) => {
    if (laidOut.has(page)) return;
    laidOut.add(page);
    const kept = page.querySelector(':scope > noscript');
    if (kept) page.innerHTML = kept.textContent;
    all('.scene.show', page).forEach(makeStep);
    all('.question form', page).forEach(takeAnswers);
    page.dispatchEvent(new Event('laid-out', { bubbles: true })); // web/src/reader.ts listens
  };

  // Ids are made of letters, digits and hyphens, so a hash needs no decoding. What stands in a chapter
  // has the chapter's id before its own, with two hyphens between them.
  const pageOf = (id) =>
    (document.getElementById(id) ?? document.getElementById(id.split('--')[0]))?.closest('.cover, .chapter');
  const openAt = (hash, moved) => {
    const id = hash.slice(1);
    const page = pageOf(id) ?? (document.getElementById(id) ? null : pages[0]);
    if (!page) return;
    layOut(page);
    const target = document.getElementById(id);
    for (const each of pages) each.hidden = each !== page;
    const reading = page.matches('.chapter');
    root.classList.toggle('reading', reading);
    const title = page.querySelector('h2');
    document.title = !reading ? courseTitle : `${title.textContent} \u2013 ${courseTitle}`;
    if (target && target !== page) {
      target.scrollIntoView();
    } else if (moved) {
      scrollTo(0, 0);
      title.tabIndex = -1;
      title.focus({ preventScroll: true });
    }
  };
  addEventListener('hashchange', () => openAt(location.hash, true));
  const layOutAll = () => pages.forEach(layOut); // paper has every chapter
  addEventListener('beforeprint', layOutAll);
  matchMedia('print').addEventListener('change', layOutAll);
  root.classList.remove('opening');
  document.querySelector('.wanted')?.classList.remove('wanted');
  openAt(location.hash, location.hash.length > 1);
})();
