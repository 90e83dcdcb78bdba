/** What the languages say against a proof, a test copy or the sale: a part of the page that comes after it. */
import { wordingOf } from '../../findings/register.ts';
import { STAGES, stopsAt } from '../../release/stage.ts';
import { type Answer, page } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';

export async function showStages(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const { say, saying, render } = wording;
  const name = words['name'] ?? '';
  const [looked, known] = await Promise.all([desk.look(name), desk.languages()]);
  const tags = looked.bundle?.data.languages ?? [];
  const held = new Set(looked.bundle?.data.heldOver?.map(({ language }) => language));
  const asked = tags.filter((tag) => !held.has(tag));
  const found = await Promise.all(asked.map((tag) => looked.languages(tag)));
  const stopping = asked.flatMap((tag, at) =>
    (found[at] ?? []).flatMap((each) => {
      const stages = STAGES.filter((stage) => stopsAt(stage, each));
      if (stages.length === 0) return [];
      return [
        {
          language: known.get(tag)?.settings.name ?? tag,
          says: wordingOf(each, saying).headline,
          stages: wording.list(stages.map((stage) => say(`stage.${stage}`))),
        },
      ];
    }),
  );
  const view = {
    address: `/patterns/${encodeURIComponent(name)}`,
    stopping: stopping.slice(0, NAMED),
    more: Math.max(0, stopping.length - NAMED),
    none: stopping.length === 0,
  };
  return page(render('stages-languages', view));
}

const NAMED = 12;
