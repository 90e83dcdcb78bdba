/**
 * The bundle format as JSON Schema (draft 2020-12), made from the schema in code, so that an editor
 * completes and checks while typing. Also answers what is known at a place, for findings that name
 * the nearest key. Knows the shape only, never the pattern.
 */
import { z } from 'zod';
import { bundleSchema } from './schema.ts';

interface SchemaNode {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly items?: SchemaNode;
  readonly prefixItems?: readonly SchemaNode[];
  readonly anyOf?: readonly SchemaNode[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly description?: string;
}

let published: SchemaNode | undefined;

/** JSON Schema of `pattern.json`; a file that names it as `$schema` is completed while typing. */
export function jsonSchema(): Readonly<Record<string, unknown>> {
  published ??= {
    ...z.toJSONSchema(bundleSchema, { io: 'input' }),
    title: 'Castoff bundle: pattern.json',
  } as SchemaNode;
  return published as Readonly<Record<string, unknown>>;
}

export interface KnownHere {
  readonly keys: readonly string[];
  readonly description: string | undefined;
  /** "text", "a number", "a list" … as the place allows. */
  readonly expected: string;
}

/** What the format knows at a path of keys and positions. */
export function knownAt(path: readonly PropertyKey[]): KnownHere {
  jsonSchema();
  let nodes: readonly SchemaNode[] = published ? [published] : [];
  for (const step of path) {
    nodes = nodes.flatMap(branchesOf).flatMap((node) => childOf(node, step));
  }
  const branches = nodes.flatMap(branchesOf);
  return {
    keys: [...new Set(branches.flatMap((node) => Object.keys(node.properties ?? {})))],
    description: nodes.find((node) => node.description !== undefined)?.description,
    expected: [...new Set(branches.map(describeNode))].join(' or ') || 'a value',
  };
}

const branchesOf = (node: SchemaNode): readonly SchemaNode[] =>
  node.anyOf === undefined ? [node] : node.anyOf.flatMap(branchesOf);

function childOf(node: SchemaNode, step: PropertyKey): readonly SchemaNode[] {
  if (typeof step === 'number') {
    const item = node.prefixItems?.[step] ?? node.items;
    return item === undefined ? [] : [item];
  }
  const named = node.properties?.[String(step)];
  if (named !== undefined) return [named];
  const other = node.additionalProperties;
  return typeof other === 'object' ? [other] : [];
}

function describeNode(node: SchemaNode): string {
  if (node.const !== undefined) return JSON.stringify(node.const);
  if (node.enum !== undefined) return `one of ${node.enum.map(String).join(', ')}`;
  return nameOfType(node.type ?? '');
}

/** A JSON type in words. */
export function nameOfType(type: string): string {
  switch (type) {
    case 'string':
      return 'text';
    case 'number':
      return 'a number';
    case 'integer':
    case 'int':
      return 'a whole number';
    case 'array':
    case 'tuple':
      return 'a list [ … ]';
    case 'object':
    case 'record':
      return 'a record { … }';
    case 'boolean':
      return 'true or false';
    case 'null':
      return 'null';
    default:
      return 'a value';
  }
}
