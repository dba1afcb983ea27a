'use strict';
(() => {
  const slides = [...document.querySelectorAll('.slide')];
  const place = document.querySelector('.place');
  const root = document.documentElement;
  let at = 0;

  const show = (number) => {
    at = Math.min(Math.max(number, 0), slides.length - 1);
    slides.forEach((slide, i) => slide.classList.toggle('now', i === at));
    place.textContent = `${at + 1} of ${slides.length}`;
    history.replaceState(null, '', `#slide-${at + 1}`);
    scrollTo(0, 0);
    // Whoever hears the deck hears the slide that has come.
    slides[at].focus({ preventScroll: true });
  };
  const chapter = (step) => {
    for (let i = at + step; i >= 0 && i < slides.length; i += step) {
      if (slides[i].classList.contains('opening')) return show(i);
    }
  };
  const prefersDark = matchMedia('(prefers-color-scheme: dark)');
  const dark = () => (root.dataset.theme ?? (prefersDark.matches ? 'dark' : 'light')) === 'dark';
  const keys = {
    ArrowRight: () => show(at + 1),
    ArrowDown: () => show(at + 1),
    PageDown: () => show(at + 1),
    ' ': () => show(at + 1),
    Enter: () => show(at + 1),
    ArrowLeft: () => show(at - 1),
    ArrowUp: () => show(at - 1),
    PageUp: () => show(at - 1),
    Home: () => show(0),
    End: () => show(slides.length - 1),
    ']': () => chapter(1),
    '[': () => chapter(-1),
    n: () => root.classList.toggle('with-notes'),
    d: () => (root.dataset.theme = dark() ? 'light' : 'dark'),
  };
  const wanted = () => Number((location.hash.match(/^#slide-(\d+)$/) || [0, 1])[1]) - 1;

  root.classList.add('scripted');
  addEventListener('keydown', (event) => {
    const act = keys[event.key];
    if (!act || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    act();
  });
  addEventListener('click', (event) => {
    if (!event.target.closest('a, .notes')) show(at + 1);
  });
  addEventListener('hashchange', () => {
    if (wanted() !== at) show(wanted());
  });
  show(wanted());
})();
