/** The step in which a logger's readings come. */

/** enough readings to see the step of the logger; counting more would only cost time */
const READINGS_FOR_RESOLUTION = 50_000;

/** The step of a logger: the greatest common divisor of its readings, counted in their last decimal. */
export class StepFinder {
  #decimals = 0;
  #divisor = 0;
  #seen = 0;
  #first: number | undefined;

  see(value: number, text: string): void {
    if (this.#seen > READINGS_FOR_RESOLUTION) return;
    this.#seen += 1;
    const point = Math.max(text.indexOf('.'), text.indexOf(','));
    const decimals = point === -1 ? 0 : Math.min(6, text.slice(point + 1).match(/^\d*/)![0].length);
    if (decimals > this.#decimals) {
      this.#divisor *= 10 ** (decimals - this.#decimals);
      this.#decimals = decimals;
    }
    this.#first ??= value;
    let a = this.#divisor;
    let b = Math.abs(Math.round((value - this.#first) * 10 ** this.#decimals));
    while (b > 0) [a, b] = [b, a % b];
    this.#divisor = a;
  }

  /** In the unit of the cells. Readings that never change show no step: then the last decimal counts. */
  resolution(): number {
    return (this.#divisor === 0 ? 1 : this.#divisor) * 10 ** -this.#decimals;
  }
}
