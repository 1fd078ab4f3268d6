import { expect, it } from 'vitest';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { packKnowledge, unpackKnowledge } from '../../src/knowledge/packed.ts';

it('Knowledge that a build has shipped as data is the knowledge that was parsed, network included', async () => {
  const parsed = await loadKnowledge();
  if (!parsed.ok) throw new Error('the knowledge in rules/ does not parse: run the audit');
  const shipped = JSON.parse(JSON.stringify(packKnowledge(parsed.knowledge)));
  expect(shipped.network).toBeUndefined();
  expect(unpackKnowledge(shipped)).toEqual(parsed.knowledge);
});
