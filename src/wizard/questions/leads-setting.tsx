import { messages } from '../language.ts';
import { FOUR_WIRE_DRAFT, LEADS_DRAFT, leadsOf, setLeads } from '../leads.ts';
import { useSession } from '../session.ts';
import { readAs } from './reading.tsx';
import { TypedField } from './typed-field.tsx';

const same = (text: string, stored: string): boolean => text.trim() === stored;

/** Two-wire readings carry the leads' own resistance; on a core rail that is as much as the rail. */
export function LeadsSetting({ shopLeads }: { shopLeads: number }) {
  const { desk, drafts, edit } = useSession();
  if (desk.value === null) return null;
  const { record } = desk.value;
  const { readings } = messages.value;
  const now = leadsOf(record, drafts.texts.value);
  const measured = record.timeline.some((event) => event.type === 'measured');
  const takeText = (text: string, readable: boolean) => {
    const typed = text.trim();
    drafts.set(LEADS_DRAFT, readable && measured ? null : text === '' ? null : text);
    if (!readable || !measured) return;
    const { leads: _leads, ...rest } = now;
    edit((at) => setLeads(at, typed === '' ? rest : { ...rest, leads: typed }), LEADS_DRAFT);
  };
  const takeFourWire = (fourWire: boolean) => {
    if (!measured) drafts.set(FOUR_WIRE_DRAFT, fourWire ? 'yes' : null);
    else edit((at) => setLeads(at, { ...now, fourWire }));
  };
  return (
    <div class="leads">
      <TypedField
        id="leads"
        label={readings.leads}
        unit="Ω"
        stored={now.leads ?? ''}
        draft={drafts.texts.value.get(LEADS_DRAFT)}
        placeholder={String(shopLeads)}
        read={readAs('resistance')}
        same={same}
        onText={takeText}
        disabled={now.fourWire === true}
        describedBy="leads-about"
      />
      <label class="choice">
        <input
          type="checkbox"
          checked={now.fourWire === true}
          onChange={({ currentTarget }) => takeFourWire(currentTarget.checked)}
        />
        <span class="choice-name">{readings.fourWire}</span>
      </label>
      <small id="leads-about">{readings.leadsAbout}</small>
    </div>
  );
}
