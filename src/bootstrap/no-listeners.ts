/**
 * Stands in the wizard for the event library under json-rules-engine. The engine is asked what matched when it has run, and
 * nobody listens while it does; whoever wants to must put the library back.
 */
export default function NoListeners(): void {}

NoListeners.prototype.emitAsync = async (): Promise<readonly unknown[]> => [];
NoListeners.prototype.on = (): never => {
  throw new Error('Nobody can listen to the rules engine in the wizard: read the results of its run.');
};
