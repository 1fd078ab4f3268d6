/** A card that was worked on: what became of it, why it fails again, and whether to try again. */
import type { Catalogue } from '../catalogue.ts';
import type { Desk } from '../desk.ts';
import { formatTag, messages } from '../language.ts';
import { ProfileZone } from '../profile/profile-zone.tsx';
import { useSession } from '../session.ts';
import { Life } from './life.tsx';
import { LookAgain } from './look-again.tsx';
import { SecondAttempt } from './second-attempt.tsx';
import { type Service, serviceOf } from './service.ts';
import { ServiceLog } from './service-log.tsx';
import { Symptom } from './symptom.tsx';
import { FirstDiagnosis, WhyAgain } from './why-again.tsx';
import { cameBackWords } from './words.ts';
import '../look/life.css';
import '../look/came-back.css';

export function CameBackStep({ desk, catalogue }: { readonly desk: Desk; readonly catalogue: Catalogue }) {
  const { adviser } = useSession();
  const { record } = desk;
  const { assessment } = adviser.advice.value;
  const { lead } = cameBackWords.value;
  const service = serviceOf(record);
  if (service === null) return <p class="lead">{lead.none}</p>;
  const failed = service.cameBack !== null || service.treated.worked === false;
  const comeback = assessment?.kind === 'assessed' ? assessment.comeback : undefined;
  return (
    <>
      <p class="lead">{sayWork(service, catalogue)}</p>
      <ServiceLog record={record} service={service} catalogue={catalogue} />
      {service.cameBack !== null && (
        <section>
          <Symptom record={record} catalogue={catalogue} />
        </section>
      )}
      {failed && <LookAgain record={record} catalogue={catalogue} />}
      {comeback === undefined ? (
        <p class="lead">{assessment === null ? messages.value.notices.weighing : messages.value.notices.noVerdict}</p>
      ) : (
        <>
          <WhyAgain comeback={comeback} />
          {comeback.attributions !== null && <FirstDiagnosis comeback={comeback} />}
          {comeback.attributions !== null && assessment?.kind === 'assessed' && (
            <SecondAttempt assessed={assessment} catalogue={catalogue} />
          )}
        </>
      )}
      <Life record={record} catalogue={catalogue} />
      <ProfileZone record={record} remedy={service.treated.remedy} />
    </>
  );
}

function sayWork({ treated }: Service, catalogue: Catalogue): string {
  const { lead } = cameBackWords.value;
  const remedy = catalogue.remedies.find(({ id }) => id === treated.remedy)?.name ?? treated.remedy;
  const day = new Intl.DateTimeFormat(formatTag(catalogue.shop.locale), { dateStyle: 'medium' }).format(
    new Date(treated.at),
  );
  const said = treated.worked === null ? lead.untried : treated.worked ? lead.worked : lead.failed;
  return said(remedy, day);
}
