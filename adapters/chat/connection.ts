import type { Failed } from './outcome.ts';

/** nodejs.org/api/tls.html#x509-certificate-error-codes: the connection is given up before anything is sent. */
const badCertificate =
  /^(CERT_|DEPTH_ZERO_SELF_SIGNED|SELF_SIGNED_CERT|UNABLE_TO_(GET_ISSUER|VERIFY)|ERR_TLS_CERT)/;

/** @param error what `fetch` threw, or an error of a platform's library around it. @param title names the platform */
export function failedConnection(error: unknown, title: string): Failed {
  const ends = lastCauses(error);
  const codes = [...new Set(ends.map(nameOf))].join(', ');
  if (ends.length > 0 && ends.every((end) => badCertificate.test(nameOf(end)))) {
    const mend = 'Check the date of this computer and what stands between it and the network.';
    return { kind: 'retry', why: `The certificate of ${title} does not hold (${codes}). ${mend}` };
  }
  if (ends.length > 0 && ends.every(neverSent))
    return {
      kind: 'retry',
      why: `${title} cannot be reached (${codes}). Check the network of this computer.`,
    };
  if (ends.some((end) => nameOf(end) === 'TimeoutError'))
    return { kind: 'unclear', why: `${title} did not answer in time; it may have been shown or not.` };
  return {
    kind: 'unclear',
    why: `The connection to ${title} broke (${codes}); it may have been shown or not.`,
  };
}

/** Down the causes to their ends. More than one when several addresses of a host were tried. */
function lastCauses(error: unknown): readonly unknown[] {
  if (error instanceof AggregateError && error.errors.length > 0) return error.errors.flatMap(lastCauses);
  if (error instanceof Error && error.cause !== undefined) return lastCauses(error.cause);
  return [error];
}

function neverSent(end: unknown): boolean {
  if (!(end instanceof Error)) return false;
  const call = 'syscall' in end ? end.syscall : undefined;
  return call === 'connect' || call === 'getaddrinfo' || nameOf(end) === 'UND_ERR_CONNECT_TIMEOUT';
}

/** A code or a class, never a text: texts of errors can hold the token. */
function nameOf(end: unknown): string {
  if (!(end instanceof Error)) return 'unknown';
  const code = 'code' in end && typeof end.code === 'string' ? end.code : end.name;
  return /^\w{1,60}$/.test(code) ? code : 'unknown';
}
