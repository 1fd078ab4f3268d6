/** The closed lists of words the knowledge is written in. Apart from the schemas, so that whoever computes with them needs no parser. */

export const SITES = [
  'core-joints',
  'core-package',
  'board',
  'power',
  'memory',
  'firmware',
  'cooling',
  'earlier-rework',
  'connectors',
  'host',
] as const;

export const FINDING_GROUPS = ['symptoms', 'looks', 'rails', 'power-up', 'tests', 'after-rework'] as const;

export const QUANTITIES = ['resistance', 'voltage', 'current', 'temperature', 'percent', 'ratio'] as const;

export const UNITS = {
  resistance: 'ohm',
  voltage: 'V',
  current: 'A',
  temperature: 'degC',
  percent: '%',
  ratio: '1',
} as const;
