/** The promise's own end, or a rejection after `ms`: one call that never returns must not stop a loop. */
export async function withinTime<T>(work: Promise<T>, ms: number, what: string): Promise<T> {
  let timeout: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timeout = setTimeout(() => reject(new Error(`${what} in ${Math.round(ms / 1000)} s`)), ms);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timeout);
  }
}
