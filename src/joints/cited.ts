/** Where the figures of this folder come from. A standard's table is data; beside it stand its source, place and revision. */

/** seen: in a stored copy · quoted: on a page that quotes the standard · memory: not seen, never to be relied on alone */
export type Seen = 'seen' | 'quoted' | 'memory';

export interface Cited {
  /** an id of `JOINT_SOURCES` */
  readonly source: string;
  /** table, clause or equation */
  readonly place: string;
  readonly seen: Seen;
}

export const JOINT_SOURCES: { readonly [id: string]: string } = {
  'j-std-020d': 'IPC/JEDEC J-STD-020D (2007), moisture and reflow sensitivity classification',
  'j-std-020c': 'IPC/JEDEC J-STD-020C (2004), the revision before',
  'j-std-033': 'IPC/JEDEC J-STD-033, handling of moisture sensitive packages',
  'ipc-7095': 'IPC-7095, design and assembly of ball grid arrays',
  'ipc-a-610': 'IPC-A-610, acceptability of electronic assemblies',
  'reflow-passes-component-guide': 'a component maker’s soldering guide',
  'ipc-tm-650-2-6-27': 'IPC-TM-650 method 2.6.27, reflow simulation on the bare board',
  'ipc-rework-cycles-paper': 'a conference paper on rework cycles (abstract)',
  'ball-height-note': 'a component maker’s note on mounted ball height',
  'solder-alloy-table': 'a compiled table of solder alloys',
  'esa-reliability-handbook': 'ESA handbook on solder joint life; the same form in the FIDES guide',
  'yang-2007': 'G. Yang, Life Cycle Reliability Engineering (2007)',
  'pan-2005': 'N. Pan et al. (2005), as quoted by others',
  'lall-2012': 'P. Lall et al. (2012), acceleration factors of SAC305 (from memory)',
  'engelmaier-test-values': 'published test values of the Engelmaier model (after W. Engelmaier; IPC-SM-785)',
};
