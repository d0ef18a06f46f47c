/** Every small change of a source file that a test ought to notice. */
import ts from 'typescript';
import { type Changes, hasEffect } from './effects.js';

/**
 * One change of one place in a source file. `probe` is the expression or statement whose running shows that the place is reached; where it can be
 * evaluated twice, what it gives with the change tells whether anybody could notice.
 */
export interface Mutation {
  readonly start: number;
  readonly end: number;
  readonly line: number;
  readonly was: string;
  readonly becomes: string;
  readonly probe: Probe;
}

export interface Probe {
  readonly start: number;
  readonly end: number;
  readonly isStatement: boolean;
  readonly isRepeatable: boolean;
}

type Change = readonly [node: ts.Node, becomes: string, start?: number, end?: number];

const OPERATORS = new Map<ts.SyntaxKind, readonly string[]>([
  [ts.SyntaxKind.LessThanToken, ['<=', '>=']],
  [ts.SyntaxKind.LessThanEqualsToken, ['<', '>']],
  [ts.SyntaxKind.GreaterThanToken, ['>=', '<=']],
  [ts.SyntaxKind.GreaterThanEqualsToken, ['>', '<']],
  [ts.SyntaxKind.EqualsEqualsEqualsToken, ['!==']],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken, ['===']],
  [ts.SyntaxKind.PlusToken, ['-']],
  [ts.SyntaxKind.MinusToken, ['+']],
  [ts.SyntaxKind.AsteriskToken, ['/']],
  [ts.SyntaxKind.SlashToken, ['*']],
  [ts.SyntaxKind.PercentToken, ['*']],
  [ts.SyntaxKind.PlusEqualsToken, ['-=']],
  [ts.SyntaxKind.MinusEqualsToken, ['+=']],
  [ts.SyntaxKind.AmpersandAmpersandToken, ['||']],
  [ts.SyntaxKind.BarBarToken, ['&&']],
]);

/** Methods whose call is dropped, so that what they were called on stands alone. */
const DROPPED = new Set([
  'filter',
  'map',
  'slice',
  'sort',
  'toSorted',
  'reverse',
  'toReversed',
  'trim',
  'toLowerCase',
  'toUpperCase',
  'normalize',
  'replace',
  'replaceAll',
  'flat',
]);
const EXCHANGED = new Map([
  ['some', 'every'],
  ['every', 'some'],
  ['startsWith', 'endsWith'],
  ['endsWith', 'startsWith'],
  ['min', 'max'],
  ['max', 'min'],
  ['find', 'findLast'],
  ['findLast', 'find'],
  ['indexOf', 'lastIndexOf'],
  ['floor', 'ceil'],
  ['ceil', 'floor'],
  ['padStart', 'padEnd'],
]);

function operators(node: ts.Node): readonly Change[] {
  if (!ts.isBinaryExpression(node)) return [];
  const { left, right, operatorToken } = node;
  if (operatorToken.kind === ts.SyntaxKind.QuestionQuestionToken)
    return [
      [node, left.getText()],
      [node, right.getText()],
    ];
  const changed: readonly Change[] = (OPERATORS.get(operatorToken.kind) ?? []).map((sign) => [
    node,
    sign,
    operatorToken.getStart(),
    operatorToken.end,
  ]);
  const isLogical = operatorToken.kind === ts.SyntaxKind.AmpersandAmpersandToken || operatorToken.kind === ts.SyntaxKind.BarBarToken;
  return isLogical ? [...changed, [node, left.getText()], [node, right.getText()]] : changed;
}

function conditions(node: ts.Node): readonly Change[] {
  if (ts.isPrefixUnaryExpression(node)) {
    if (node.operator === ts.SyntaxKind.ExclamationToken) return [[node, node.operand.getText()]];
    return node.operator === ts.SyntaxKind.MinusToken ? [[node, `(${node.operand.getText()})`]] : [];
  }
  if (ts.isIfStatement(node))
    return [
      [node.expression, 'true'],
      [node.expression, 'false'],
    ];
  if (ts.isConditionalExpression(node))
    return [
      [node, `(${node.whenTrue.getText()})`],
      [node, `(${node.whenFalse.getText()})`],
    ];
  if (ts.isWhileStatement(node)) return [[node.expression, 'false']];
  return [];
}

function methods(node: ts.Node): readonly Change[] {
  if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression)) return [];
  const { expression: on, name } = node.expression;
  const other = EXCHANGED.get(name.text);
  if (other !== undefined) return [[node, other, name.getStart(), name.end]];
  return DROPPED.has(name.text) ? [[node, on.getText()]] : [];
}

/** Statements that are left out. A declaration or a return is none of them: without it nothing compiles. */
function statements(node: ts.Node): readonly Change[] {
  const isPlain = ts.isExpressionStatement(node) || ts.isContinueStatement(node) || ts.isBreakStatement(node);
  return isPlain || (ts.isReturnStatement(node) && node.expression === undefined) ? [[node, '{}']] : [];
}

/** What a function gives, as nothing or as the opposite, by the type of what it gives. */
function given(node: ts.Node, checker: ts.TypeChecker): readonly Change[] {
  const expression = ts.isReturnStatement(node)
    ? node.expression
    : ts.isArrowFunction(node) && !ts.isBlock(node.body)
      ? node.body
      : undefined;
  if (expression === undefined) return [];
  const type = checker.getTypeAtLocation(expression);
  const parts = type.isUnion() ? type.types : [type];
  const has = (flags: ts.TypeFlags): boolean => parts.some((part) => (part.flags & flags) !== 0);
  const text = expression.getText();
  const others = [
    ...(has(ts.TypeFlags.BooleanLike) ? [`!(${text})`] : []),
    ...(has(ts.TypeFlags.StringLike) ? ["''"] : []),
    ...(has(ts.TypeFlags.NumberLike) ? [`((${text}) + 1)`] : []),
    ...(has(ts.TypeFlags.Undefined) && text !== 'undefined' ? ['undefined'] : []),
    ...(has(ts.TypeFlags.Null) && text !== 'null' ? ['null'] : []),
    ...(parts.some((part) => checker.isArrayLikeType(part)) && text !== '[]' ? ['[]'] : []),
  ];
  return others.filter((other) => other !== text).map((other) => [expression, other]);
}

function literals(node: ts.Node): readonly Change[] {
  if (ts.isNumericLiteral(node)) return [[node, String(Number(node.text) + 1)]];
  if (ts.isRegularExpressionLiteral(node)) {
    const [, source = '', flags = ''] = /^\/(.*)\/([a-z]*)$/s.exec(node.text) ?? [];
    const others = [
      source.replace(/^\^/, ''),
      source.replace(/(?<!\\)\$$/, ''),
      source.replace(/(?<=[\])\w])[+*](?!\?)/, ''),
      source.replace(/\?(?=[^:=!<]|$)/, ''),
    ];
    return [...new Set(others)].filter((other) => other !== source && other !== '').map((other) => [node, `/${other}/${flags}`]);
  }
  if (ts.isArrayLiteralExpression(node)) return node.elements.length === 0 || isTarget(node) ? [] : [[node, '[]']];
  // Sentences for people are read by people; a word is what something is told by.
  if (!ts.isStringLiteral(node) && !ts.isNoSubstitutionTemplateLiteral(node)) return [];
  return /\s\S/.test(node.text) ? [] : [[node, node.text === '' ? "'~'" : "''"]];
}

/** True where a list is what values are given to, as in `[a, b] = [b, a]`. */
function isTarget(node: ts.Node): boolean {
  const { parent } = node;
  return ts.isBinaryExpression(parent) && parent.operatorToken.kind === ts.SyntaxKind.EqualsToken && parent.left === node;
}

/** True where nothing runs: types, imports, names of properties. */
function isSilent(node: ts.Node): boolean {
  return (
    ts.isTypeNode(node) ||
    ts.isTypeAliasDeclaration(node) ||
    ts.isInterfaceDeclaration(node) ||
    ts.isImportDeclaration(node) ||
    (ts.isExportDeclaration(node) && node.moduleSpecifier !== undefined)
  );
}

/**
 * The expression or statement to watch: of a chain the whole, because a part of `a?.b.c()` does not stand alone, and of a condition or sum the whole,
 * because what a part gives may make no difference to it. Not beyond a call, which may cost too much to be made again for every mutant.
 */
function watched(node: ts.Node): ts.Node {
  const { parent } = node;
  const isPart =
    (ts.isCallExpression(parent) ||
      ts.isPropertyAccessExpression(parent) ||
      ts.isElementAccessExpression(parent) ||
      ts.isNonNullExpression(parent)) &&
    parent.expression === node;
  if (isPart || (ts.isPropertyAssignment(parent) && parent.name === node)) return watched(parent);
  return isOperand(node) && !calls(parent) ? watched(parent) : node;
}

function isOperand({ parent }: ts.Node): boolean {
  if (ts.isBinaryExpression(parent)) {
    const { kind } = parent.operatorToken;
    return kind < ts.SyntaxKind.FirstAssignment || kind > ts.SyntaxKind.LastAssignment;
  }
  if (ts.isPrefixUnaryExpression(parent))
    return parent.operator === ts.SyntaxKind.ExclamationToken || parent.operator === ts.SyntaxKind.MinusToken;
  return ts.isParenthesizedExpression(parent) || ts.isConditionalExpression(parent);
}

/** True where something is called in a node, not counting the functions that are made in it. */
function calls(node: ts.Node): boolean {
  if (ts.isFunctionLike(node)) return false;
  return ts.isCallExpression(node) || ts.isNewExpression(node) || (ts.forEachChild(node, calls) ?? false);
}

function probeOf(node: ts.Node, changes: Changes): Probe {
  const isStatement = ts.isStatement(node);
  return { start: node.getStart(), end: node.end, isStatement, isRepeatable: !isStatement && !hasEffect(node, changes) };
}

/** All mutations of a source file, in the order of their places. */
export function mutationsOf(file: ts.SourceFile, checker: ts.TypeChecker, changes: Changes): readonly Mutation[] {
  const found: Mutation[] = [];
  const probes = new Map<ts.Node, Probe>();
  const visit = (node: ts.Node): void => {
    if (isSilent(node)) return;
    if (!(ts.isPropertyAssignment(node.parent) && node.parent.name === node)) {
      const made = [
        ...operators(node),
        ...conditions(node),
        ...methods(node),
        ...statements(node),
        ...given(node, checker),
        ...literals(node),
      ];
      for (const [at, becomes, start = at.getStart(), end = at.end] of made) {
        const place = watched(at);
        const probe = probes.get(place) ?? probeOf(place, changes);
        probes.set(place, probe);
        const { line } = file.getLineAndCharacterOfPosition(start);
        found.push({
          start,
          end,
          line: line + 1,
          was: file.text.slice(start, end),
          becomes,
          probe,
        });
      }
    }
    ts.forEachChild(node, visit);
  };
  ts.forEachChild(file, visit);
  const seen = new Set<string>();
  return found
    .filter(({ start, end, becomes }) => {
      const key = `${start} ${end} ${becomes}`;
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => a.start - b.start || a.end - b.end);
}

/** The source with one mutation made. */
export function mutated(source: string, { start, end, becomes }: Pick<Mutation, 'start' | 'end' | 'becomes'>): string {
  return source.slice(0, start) + becomes + source.slice(end);
}
