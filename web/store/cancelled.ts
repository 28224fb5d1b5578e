/** Thrown where a person stopped the work. */
export class Cancelled extends Error {
  constructor() {
    super('stopped');
  }
}
