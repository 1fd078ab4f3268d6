import type { Quantity } from '../../evidence/quantity.ts';
import type { Meter } from '../../shop/schema.ts';
import { type MeterChoice, meterOf } from '../meters.ts';
import { useSession } from '../session.ts';

interface MeterInHand {
  readonly meter: MeterChoice;
  readonly meters: readonly Meter[];
  readonly quantityOf: (finding: string) => Quantity | undefined;
}

/** The meter that the open card's readings are taken with. */
export function useMeter(): MeterInHand {
  const { adviser, desk, drafts } = useSession();
  const catalogue = adviser.catalogue.value;
  const meters = catalogue?.shop.meters ?? [];
  const quantityOf = (finding: string) => catalogue?.findings.find(({ id }) => id === finding)?.reading?.quantity;
  const meter: MeterChoice =
    desk.value === null ? { kind: 'usual' } : meterOf(desk.value.record, drafts.texts.value, meters, quantityOf);
  return { meter, meters, quantityOf };
}
