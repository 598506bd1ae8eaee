/** Calls `run` after `ms`; what comes back calls that off. */
export type Again = (ms: number, run: () => void) => () => void;

export const onTimer: Again = (ms, run) => {
  const timer = setTimeout(run, ms);
  return () => clearTimeout(timer);
};
