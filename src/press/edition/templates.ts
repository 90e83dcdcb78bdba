/**
 * The page templates: Handlebars, strict, so that a field the view does not have is an error and not
 * a gap on the page. Takes template texts by name, gives a function from view to markup. Values are
 * escaped by Handlebars; a bundle's text is data and is never compiled as a template.
 */
import Handlebars from 'handlebars';

export type TemplateTexts = ReadonlyMap<string, string>;

export interface Templates {
  /** Writes the markup of one template. Throws where the view lacks a field the template names. */
  write(name: string, view: object, words: (key: string) => string): string;
}

/** Compiles all templates once; each may include the others by name as a partial. */
export function openTemplates(texts: TemplateTexts): Templates {
  const engine = Handlebars.create();
  const options = { strict: true, preventIndent: true } as const;
  for (const [name, text] of texts) engine.registerPartial(name, text);
  const compiled = new Map(
    [...texts].map(([name, text]) => [name, engine.compile<object>(text, options)]),
  );
  return {
    write(name, view, words) {
      const template = compiled.get(name);
      if (!template) throw new Error(`there is no template ${name}`);
      return template(view, { helpers: { word: (key: string) => words(key) } });
    },
  };
}
