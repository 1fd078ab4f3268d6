/** Knowledge as a build ships it: parsed and audited once, sent as plain data, so that whoever opens it needs no schemas. */
import { compileNetwork } from './compile.ts';
import type { Knowledge } from './knowledge.ts';

export type PackedKnowledge = Omit<Knowledge, 'network'>;

/** Plain data: it survives JSON. The network is compiled anew where it is opened, which takes a millisecond. */
export function packKnowledge({ network: _network, ...packed }: Knowledge): PackedKnowledge {
  return packed;
}

export function unpackKnowledge(packed: PackedKnowledge): Knowledge {
  return { ...packed, network: compileNetwork(packed.faults, packed.findings) };
}
