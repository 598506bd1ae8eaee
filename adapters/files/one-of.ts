/** "a", "a or b", "one of a, b, c"; each once. */
export function oneOf(choices: readonly (string | number | boolean)[]): string {
  const [first, second, ...rest] = [...new Set(choices.map(String))];
  if (first === undefined) return 'nothing';
  if (second === undefined) return first;
  return rest.length === 0 ? `${first} or ${second}` : `one of ${[first, second, ...rest].join(', ')}`;
}
