/**
 * The word of a designer that texts of a language say what their source says: the texts are shown beside
 * it, and tied to it after a yes. From then on a change of the source asks for the translation again.
 */
import { tagOf } from '../../shelf/shelf.ts';
import type { Answer } from '../answer.ts';
import { type Asked, type Desk, fieldOf } from '../desk.ts';
import { proposalPage } from './papers.ts';

export async function proposeTying(desk: Desk, asked: Asked): Promise<Answer> {
  const { say } = asked.wording;
  const name = asked.words['name'] ?? '';
  const tag = fieldOf(await asked.call.form(), 'tag');
  const { file, before, after, pairs } = await desk.work.ask('textsTied', { name, tag });
  const language = (await desk.languages()).get(tag)?.settings.name ?? tag;
  const said = say('translations.tied', { language });
  const replacement =
    pairs.length > 0 ? { file, tag: tagOf(before), bytes: after, said } : undefined;
  return proposalPage(desk, asked, {
    part: 'translations',
    title: language,
    replacement,
    lines: pairs.map(({ source, text }) => `${source} → ${text}`),
    ...(replacement && { lead: say('translations.tieAsk') }),
  });
}
