/** Structured logging as the host needs it; pino fits, and a list in tests. */
export interface Log {
  info(facts: object, message: string): void;
  warn(facts: object, message: string): void;
  error(facts: object, message: string): void;
}
