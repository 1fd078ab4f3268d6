/** The knowledge after parse and audit: what every other part trusts by type. */

import type { Network } from '../belief/network.ts';
import type {
  Bench,
  Caution,
  Check,
  FactDefinition,
  Fault,
  Finding,
  HoldPoint,
  PackageKind,
  Population,
  Preparation,
  Procedure,
  Remedy,
  Rule,
  Source,
  Stop,
  Window,
} from './schema.ts';
import type { Told } from './schema-sayings.ts';

/** A hold point in the language of the knowledge. */
export interface SpokenHoldPoint extends HoldPoint {
  /** `record` as the rules have it: with these words begins what is kept in a card's record, in every language. Left out: it is that */
  readonly recordAs?: readonly string[];
}

export interface Knowledge {
  /** language of its texts (BCP 47); left out: English, in which the rules are written */
  readonly language?: string;
  /** sentences that assessments make, in that language; left out: English */
  readonly sayings?: { readonly [id: string]: string };
  /** first 16 hex digits of the SHA-256 of the canonical JSON of all files */
  readonly version: string;
  /** in the order of `network.faults` */
  readonly faults: readonly Fault[];
  /** in the order of `network.findings` */
  readonly findings: readonly Finding[];
  readonly preparations: readonly Preparation[];
  readonly checks: readonly Check[];
  readonly remedies: readonly Remedy[];
  /** one for every remedy, by its id */
  readonly procedures: readonly Procedure[];
  readonly holdPoints: readonly SpokenHoldPoint[];
  readonly packages: readonly PackageKind[];
  readonly stops: readonly Stop[];
  readonly windows: readonly Window[];
  readonly sources: readonly Source[];
  readonly cautions: readonly Caution[];
  readonly facts: readonly FactDefinition[];
  readonly population: Population;
  /** equipment and parts that checks and remedies may name */
  readonly bench: Bench;
  readonly rules: {
    readonly history: readonly Rule[];
    readonly ownerWords: readonly Rule[];
    readonly windowChoice: readonly Rule[];
    readonly gates: readonly Rule[];
  };
  /** the numeric two-layer network compiled from faults and findings */
  readonly network: Network;
}

/** Something wrong with a file under `rules/`. Sentences are made at the edge by `sayProblem`. */
export interface Problem {
  /** path of the file under `rules/` */
  readonly file: string;
  /** path inside the file, such as `given.core-joint-crack.p` */
  readonly path: string;
  /** line in the file, from 1, where it is known */
  readonly line?: number;
  /** a stable word for the kind of problem, such as `row-sum` */
  readonly kind: string;
  readonly wrong: string;
  readonly todo: string;
  /** by which saying, and of what, where it can be said in another language */
  readonly told?: Told;
}
