/** Drop or choose the thermocouple log of the work: judged, drawn, and recorded as a finding with one click. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { ProfileAnswer } from '../../knowledge/profile-answer.ts';
import type { Record } from '../../record/schema.ts';
import { cameBackWords } from '../came-back/words.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { useSession } from '../session.ts';
import { sayNumber, sayPercent } from '../words.ts';
import { type Judging, judgeFile } from './judge-file.ts';
import { type JudgedLog, ProfilePlot } from './profile-plot.tsx';
import { sayLimit, sayMeasured, sayProfileVerdict } from './profile-says.ts';
import { PROFILE_FINDING, type ProfileWeights, profileOf, recordProfile, takeOutProfile } from './record-profile.ts';
import { type LogProblem, sayLogProblem } from './say-log-problem.ts';
import { firstChoice, judgedBy, type WindowChoice, WindowPick } from './window-pick.tsx';
import '../look/profile.css';

type State =
  | { readonly kind: 'empty' }
  | { readonly kind: 'reading'; readonly name: string; readonly lines: number; readonly share: number }
  | { readonly kind: 'answered'; readonly name: string; readonly answer: ProfileAnswer }
  | { readonly kind: 'failed'; readonly name: string };

interface Props {
  readonly record: Record;
  /** the work whose log it is; its solder is offered first */
  readonly remedy: string | null;
  /** keeps what was judged elsewhere, in place of the record of the last work */
  readonly onRecord?: (weights: ProfileWeights) => void;
}

export function ProfileZone({ record, remedy, onRecord }: Props) {
  const { profile: words } = cameBackWords.value;
  const [state, setState] = useState<State>({ kind: 'empty' });
  const windows = useSession().adviser.catalogue.value?.shop.reflowWindows;
  const [choice, setChoice] = useState<WindowChoice>(() => firstChoice(remedy));
  const by = judgedBy(choice, windows);
  const [over, setOver] = useState(false);
  const file = useRef<File | null>(null);
  const judging = useRef<Judging | null>(null);

  const judge = () => {
    const log = file.current;
    if (log === null) return;
    judging.current?.stop();
    setState((before) =>
      before.kind === 'answered' && before.name === log.name
        ? before
        : { kind: 'reading', name: log.name, lines: 0, share: 0 },
    );
    const mine = judgeFile(log, by, ({ lines, share }) => {
      if (judging.current === mine) setState({ kind: 'reading', name: log.name, lines, share });
    });
    judging.current = mine;
    void mine.answer.then((answer) => {
      if (judging.current !== mine) return;
      judging.current = null;
      setState(answer === null ? { kind: 'failed', name: log.name } : { kind: 'answered', name: log.name, answer });
    });
  };
  useEffect(judge, [JSON.stringify(by)]);
  useEffect(() => () => judging.current?.stop(), []);
  const take = (log: File | undefined) => {
    if (log === undefined) return;
    file.current = log;
    judge();
  };
  const stop = () => {
    const running = judging.current;
    judging.current = null;
    running?.stop();
    file.current = null;
    setState({ kind: 'empty' });
  };

  return (
    <section class="profile-zone">
      <h2>{words.heading}</h2>
      <p class="about">{words.about}</p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a place to drop on; the button inside does the same by hand */}
      <div
        class="profile-drop"
        data-over={over}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          take(event.dataTransfer?.files[0]);
        }}
      >
        <label class="profile-file">
          <span>{words.drop}</span> <span class="profile-choose">{words.choose}</span>
          <input
            type="file"
            accept=".csv,.txt,.tsv,.log,.dat,text/*"
            onChange={({ currentTarget }) => {
              take(currentTarget.files?.[0]);
              // the same file may be chosen again once it was changed
              currentTarget.value = '';
            }}
          />
        </label>
      </div>
      <WindowPick choice={choice} windows={windows} onChoice={setChoice} />
      <div aria-live="polite">
        {state.kind === 'reading' && (
          <p class="profile-progress">
            <progress
              value={state.share}
              max={1}
              aria-label={words.reading(state.name, sayPercent(state.share), sayNumber(state.lines))}
            />{' '}
            {words.reading(state.name, sayPercent(state.share), sayNumber(state.lines))}{' '}
            <button type="button" class="quiet" onClick={stop}>
              {words.stop}
            </button>
          </p>
        )}
        {state.kind === 'failed' && <p class="field-wrong">{words.failed(state.name)}</p>}
        {state.kind === 'answered' && state.answer.kind === 'unreadable' && (
          <Unreadable name={state.name} problems={state.answer.problems} beyond={state.answer.problemsBeyond} />
        )}
        {state.kind === 'answered' && state.answer.kind === 'judged' && (
          <p class="profile-verdict" data-grade={state.answer.grade}>
            {sayProfileVerdict(state.answer)}
          </p>
        )}
      </div>
      {state.kind === 'answered' && state.answer.kind === 'judged' && (
        <Judged name={state.name} judged={state.answer} />
      )}
      <Recorded
        record={record}
        judged={state.kind === 'answered' && state.answer.kind === 'judged' ? state.answer : null}
        onRecord={onRecord}
      />
    </section>
  );
}

function Unreadable({
  name,
  problems,
  beyond,
}: {
  readonly name: string;
  readonly problems: readonly LogProblem[];
  readonly beyond: number;
}) {
  const { profile: words } = cameBackWords.value;
  return (
    <div class="field-wrong">
      <strong>{words.unreadable(name)}</strong>
      <ul>
        {problems.map((problem) => {
          const { wrong, todo, lang } = sayLogProblem(problem);
          return (
            <li key={`${problem.line}-${problem.wrong}`}>
              {problem.line > 0 && <>{words.line(problem.line)}: </>}
              <span lang={lang}>
                {wrong} {todo}
              </span>
            </li>
          );
        })}
        {beyond > 0 && <li>{words.moreProblems(beyond)}</li>}
      </ul>
    </div>
  );
}

function Judged({ name, judged }: { readonly name: string; readonly judged: JudgedLog }) {
  const { profile: words } = cameBackWords.value;
  return (
    <figure class="profile">
      <figcaption class="about">{words.read(name, sayNumber(judged.log.rows), judged.channels.length)}</figcaption>
      <ProfilePlot judged={judged} />
      <InFigures
        title={words.inFigures}
        columns={[
          { name: words.measure },
          { name: words.value, number: true },
          { name: words.limit, number: true },
          { name: words.says },
        ]}
        rows={judged.heats.flatMap(({ channel, heat, rows }) =>
          rows.map((row) => [
            judged.heats.length > 1
              ? `${words.heatOf(channel, heat)}: ${words.measures[row.measure]}`
              : words.measures[row.measure],
            sayMeasured(row),
            sayLimit(row),
            words.grades[row.grade],
          ]),
        )}
      />
      {judged.window.kind === 'package-class' && <p class="about">{words.ceilings}</p>}
    </figure>
  );
}

/** What stands on the record, and the button that puts the judged log there. */
function Recorded({
  record,
  judged,
  onRecord,
}: {
  readonly record: Record;
  readonly judged: JudgedLog | null;
  readonly onRecord: Props['onRecord'];
}) {
  const { edit } = useSession();
  const { profile: words } = cameBackWords.value;
  const standing = onRecord === undefined ? profileOf(record) : null;
  const weight = standing?.weights?.[standing.state ?? ''] ?? 1;
  return (
    <div class="profile-recorded" id={PROFILE_FINDING}>
      {judged !== null && (
        <button
          type="button"
          class="main"
          onClick={() => {
            if (onRecord !== undefined) onRecord(judged.finding.weights);
            else edit((latest, at) => recordProfile(latest, judged.finding.weights, at));
          }}
        >
          {words.recordIt}
        </button>
      )}
      {standing !== null && (standing.state === 'in-window' || standing.state === 'out-of-window') && (
        <p role="status">
          <b>{words.recorded(words.recordedAs[standing.state], sayPercent(weight))}</b>{' '}
          <button type="button" class="quiet" onClick={() => edit(takeOutProfile)}>
            {words.takeOut}
          </button>
          <small>{words.bothRecorded}</small>
        </p>
      )}
    </div>
  );
}
