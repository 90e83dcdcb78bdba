/**
 * Every text a `Fault` can carry, read from the sources: its message and its remedy, with `{1}`, `{2}` …
 * where a value is put in. A text that comes through a parameter is followed to the calls that give it;
 * one that is made somewhere else is told as open, so that nobody forgets it.
 */
import path from 'node:path';
import { parseAst } from 'vitest/node';
import type { Source } from '../tidy/sources.ts';

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

export interface Thrown {
  readonly file: string;
  /** The English text with its slots; of an open one, its expression. */
  readonly text: string;
  readonly open: boolean;
}

/** A text in pieces: a string is said as it stands, `undefined` is a value put in. */
type Pieces = readonly (string | undefined)[];

interface Room {
  readonly file: string;
  readonly folder: string;
  readonly text: string;
  readonly program: Node;
  readonly parents: ReadonlyMap<Node, Node>;
  /** What is being followed: a text that names itself ends. */
  readonly busy: Set<Node>;
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

const inside = (node: Node): readonly Node[] =>
  Object.values(node).flatMap((value): Node[] => {
    if (Array.isArray(value)) return (value as unknown[]).filter(isNode);
    return isNode(value) ? [value] : [];
  });

function* walk(node: Node): Generator<Node> {
  yield node;
  for (const each of inside(node)) yield* walk(each);
}

const nameOf = (node: unknown): string =>
  isNode(node) ? ((node['name'] as string | undefined) ?? nameOf(node['property'])) : '';

function openRoom({ file, text }: Source): Room {
  const program = parseAst(text, { lang: 'ts' }, file) as unknown as Node;
  const parents = new Map<Node, Node>();
  for (const node of walk(program)) for (const each of inside(node)) parents.set(each, node);
  return { file, folder: path.posix.dirname(file), text, program, parents, busy: new Set() };
}

const isFunction = ({ type }: Node): boolean => /Function/.test(type) && !type.startsWith('TS');

/** Name under which a function is called: its own, its constant's, its method's. */
function calledAs(each: Node, { parents }: Room): string {
  if (isNode(each['id'])) return nameOf(each['id']);
  const parent = parents.get(each);
  return parent ? nameOf(parent['id'] ?? parent['key']) : '';
}

/** The texts of an expression; `undefined` where it is made somewhere else. */
function textsOf(node: Node, room: Room, rooms: readonly Room[]): readonly Pieces[] | undefined {
  if (room.busy.has(node)) return undefined;
  room.busy.add(node);
  const texts = readTexts(node, room, rooms);
  room.busy.delete(node);
  return texts;
}

function readTexts(node: Node, room: Room, rooms: readonly Room[]): readonly Pieces[] | undefined {
  const all = (each: readonly Node[]) => {
    const found = each.map((one) => textsOf(one, room, rooms));
    return found.includes(undefined) ? undefined : found.flatMap((one) => one ?? []);
  };
  switch (node.type) {
    case 'Literal':
      return typeof node['value'] === 'string' && node['value'] !== ''
        ? [[node['value']]]
        : undefined;
    case 'TemplateLiteral':
      return templateTexts(node, room, rooms);
    case 'ConditionalExpression':
      return all([node['consequent'] as Node, node['alternate'] as Node]);
    case 'LogicalExpression':
      return all([node['left'] as Node, node['right'] as Node]);
    case 'Identifier':
      return namedTexts(node, room, rooms);
    case 'MemberExpression':
      return memberTexts(node, room, rooms);
    case 'ChainExpression':
      return textsOf(node['expression'] as Node, room, rooms);
    default:
      return undefined;
  }
}

function templateTexts(node: Node, room: Room, rooms: readonly Room[]): readonly Pieces[] {
  const quasis = node['quasis'] as readonly { readonly value: { readonly cooked: string } }[];
  const values = node['expressions'] as readonly Node[];
  return quasis.reduce<readonly Pieces[]>(
    (before, { value: { cooked } }, at) => {
      const value = at === 0 ? undefined : values[at - 1];
      const put = value === undefined ? [[]] : (textsOf(value, room, rooms) ?? [[undefined]]);
      return before.flatMap((each) => put.map((one) => [...each, ...one, cooked]));
    },
    [[]],
  );
}

/** A field gives every text that the file writes into a field of that name; a table, all its texts. */
function memberTexts(
  node: Node,
  room: Room,
  rooms: readonly Room[],
): readonly Pieces[] | undefined {
  const wanted = node['computed'] === true ? undefined : nameOf(node['property']);
  // The length of a list is a number, whatever fields there are.
  if (wanted === 'length') return undefined;
  const table = wanted === undefined && constantOf(nameOf(node['object']), room);
  if (wanted === undefined && !table) return undefined;
  const fields = [...walk(table || room.program)].filter(
    (each) => each.type === 'Property' && room.parents.get(each)?.type === 'ObjectExpression' && (wanted === undefined || nameOf(each['key']) === wanted),
  ); // prettier-ignore
  const found = fields.flatMap((each) => {
    const value = each['value'] as Node;
    return value === node || [...walk(value)].includes(node) ? [] : (textsOf(value, room, rooms) ?? []);
  }); // prettier-ignore
  return found.length === 0 ? undefined : found;
}

function constantOf(name: string, { program }: Room): Node | undefined {
  for (const node of walk(program))
    if (node.type === 'VariableDeclarator' && nameOf(node['id']) === name && isNode(node['init']))
      return node['init'];
  return undefined;
}

/** A constant gives its value; a parameter gives what its calls give. */
function namedTexts(node: Node, room: Room, rooms: readonly Room[]): readonly Pieces[] | undefined {
  const name = nameOf(node);
  for (let scope = room.parents.get(node); scope; scope = room.parents.get(scope)) {
    if (!isFunction(scope)) continue;
    const at = (scope['params'] as readonly Node[]).findIndex((each) => nameOf(each['left'] ?? each) === name); // prettier-ignore
    if (at >= 0) return argumentTexts(calledAs(scope, room), at, rooms);
  }
  const constant = constantOf(name, room);
  return constant && textsOf(constant, room, rooms);
}

function argumentTexts(called: string, at: number, rooms: readonly Room[]): readonly Pieces[] | undefined {
  const found: Pieces[] = [];
  for (const room of rooms)
    for (const call of walk(room.program)) {
      if (call.type !== 'CallExpression' || nameOf(call['callee']) !== called) continue;
      const given = (call['arguments'] as readonly Node[])[at];
      if (given) found.push(...(textsOf(given, room, rooms) ?? [[undefined]]));
    }
  return found.length === 0 ? undefined : found;
} // prettier-ignore

/** Slots are counted from the left. */
function wordsOf(pieces: Pieces): string {
  let slots = 0;
  return pieces.map((piece) => piece ?? `{${(slots += 1)}}`).join('');
}

/** What one file writes into fields of one name: texts that are put into other texts. */
export function readFields(source: Source, name: string): readonly string[] {
  const room = openRoom(source);
  return [...walk(room.program)].flatMap((node) => {
    if (node.type !== 'Property' || nameOf(node['key']) !== name) return [];
    return (textsOf(node['value'] as Node, room, [room]) ?? []).map(wordsOf);
  });
}

/** What one file gives to the calls of one name, at one place of their arguments. */
export function readArguments(source: Source, called: string, at: number): readonly string[] {
  const room = openRoom(source);
  return (argumentTexts(called, at, [room]) ?? []).map(wordsOf).filter((text) => text !== '{1}');
}

/** The texts of `new Fault(kind, message, { remedy })` and of `new Refusal(status, title, detail)`. */
function thrownIn(node: Node): readonly Node[] {
  if (node.type !== 'NewExpression') return [];
  const [, message, more] = node['arguments'] as readonly Node[];
  const called = nameOf(node['callee']);
  if (!message || (called !== 'Fault' && called !== 'Refusal')) return [];
  if (called === 'Refusal' || !more) return [message, ...(more ? [more] : [])];
  const remedies = [...walk(more)].filter((each) => each.type === 'Property' && nameOf(each['key']) === 'remedy'); // prettier-ignore
  return [message, ...remedies.map((each) => each['value'] as Node)];
}

/** Calls that give a text are looked for in the folder of the function. */
export function readThrown(sources: readonly Source[]): readonly Thrown[] {
  const rooms = sources.map(openRoom);
  const told = new Map<string, Thrown>();
  for (const room of rooms)
    for (const node of walk(room.program)) {
      for (const each of thrownIn(node)) {
        const near = rooms.filter(({ folder }) => folder === room.folder);
        const texts = textsOf(each, room, near)?.filter((pieces) => pieces.some(Boolean));
        const words = texts?.length ? texts.map(wordsOf) : [room.text.slice(each.start, each.end)];
        for (const text of words)
          told.set(`${room.file} ${text}`, { file: room.file, text, open: !texts?.length });
      }
    }
  return [...told.values()];
}
