import type { Instrument } from '../../record/schema.ts';
import { messages } from '../language.ts';
import { METER_DRAFT, type MeterChoice, setMeter } from '../meters.ts';
import { useSession } from '../session.ts';
import { sayShopsName } from '../shipped-names.ts';
import { sayNumber } from '../words.ts';
import { useMeter } from './use-meter.ts';

const USUAL = '';
const OTHER = 'as-recorded';

/** What the meter states about itself is part of every reading's uncertainty. */
export function MeterSetting({ usual }: { readonly usual: Instrument }) {
  const { desk, drafts, edit } = useSession();
  const { meter, meters, quantityOf } = useMeter();
  const { readings } = messages.value;
  if (desk.value === null || (meters.length === 0 && meter.kind === 'usual')) return null;
  const measured = desk.value.record.timeline.some((event) => event.type === 'measured');
  const value = meter.kind === 'listed' ? meter.meter.id : meter.kind === 'usual' ? USUAL : OTHER;
  const pick = (id: string) => {
    const listed = meters.find((one) => one.id === id);
    const choice: MeterChoice = listed === undefined ? { kind: 'usual' } : { kind: 'listed', meter: listed };
    drafts.set(METER_DRAFT, measured || listed === undefined ? null : listed.id);
    if (measured) edit((record) => setMeter(record, choice, quantityOf));
  };
  const stated = meter.kind === 'listed' ? meter.meter.resistance : usual;
  return (
    <label class="meter">
      <span class="field-label">{readings.meter}</span>
      <select
        id="meter"
        value={value}
        onChange={({ currentTarget }) => currentTarget.value !== OTHER && pick(currentTarget.value)}
      >
        <option value={USUAL}>{readings.usualMeter(sayShopsName(usual.name ?? ''))}</option>
        {meters.map(({ id, name }) => (
          <option value={id} key={id}>
            {sayShopsName(name)}
          </option>
        ))}
        {meter.kind === 'other' && <option value={OTHER}>{readings.otherMeter(sayShopsName(meter.name))}</option>}
      </select>
      {meter.kind !== 'other' && (
        <small>
          {/* a closed list cannot break its line: on a phone the whole name is here */}
          <span class="meter-name">
            {sayShopsName(meter.kind === 'listed' ? meter.meter.name : (usual.name ?? ''))}{' '}
          </span>
          {readings.meterStates(sayNumber(stated.percent), sayNumber(stated.digits))}
        </small>
      )}
    </label>
  );
}
