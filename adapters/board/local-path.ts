/**
 * A path on this board, or null. Only such a path may follow a log-in or a press: anything with another host, a
 * backslash or a control character could lead people to somebody else's page.
 */
export function localPath(text: string | undefined): string | null {
  if (text === undefined || text.length > 1000 || !/^\/(?![/\\])[^\\\p{Cc}]*$/u.test(text)) return null;
  const here = 'http://board.invalid';
  let url: URL;
  try {
    url = new URL(text, here);
  } catch {
    return null;
  }
  return url.origin === here ? url.pathname + url.search : null;
}
