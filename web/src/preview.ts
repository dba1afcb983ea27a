// In the page of a lesson that is being written: loads it again when there is another version, and
// says when nobody is there any more who would tell.
const shown = document.documentElement.dataset['preview'];
const news = new EventSource('/.events');
const lost = document.querySelector('.preview .lost');
news.addEventListener('page', ({ data }: MessageEvent<string>) => {
  if (lost) lost.textContent = '';
  if (data === shown) return;
  // What an author looks at next is where the note was, not the list of contents.
  const chapter = document.querySelector('.author-note:target')?.closest('.chapter')?.id;
  if (chapter) history.replaceState(null, '', `#${chapter}`);
  location.reload();
});
news.addEventListener('error', () => {
  if (lost) lost.textContent = 'The preview has ended; this is how the lesson was last.';
});
// A page that is left must not go on waiting where it is kept for the way back.
addEventListener('pagehide', () => news.close());
addEventListener('pageshow', ({ persisted }) => {
  if (persisted) location.reload();
});
