/** The part of a logger that the database needs; pino's fits. */
export interface Log {
  warn(fields: object, message: string): void;
  info(fields: object, message: string): void;
}
