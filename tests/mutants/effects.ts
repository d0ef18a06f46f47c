/** Which expressions can be evaluated a second time without anybody noticing. */
import ts from 'typescript';

/** Methods that change what they are called on. */
const CHANGING = new Set([
  'push',
  'pop',
  'shift',
  'unshift',
  'splice',
  'sort',
  'reverse',
  'fill',
  'set',
  'add',
  'delete',
  'clear',
  'next',
  'copyWithin',
]);

/** Methods of the language that give a list of their own. */
const FRESH = new Set(['map', 'filter', 'flatMap', 'slice', 'concat', 'split', 'from', 'entries', 'keys', 'values', 'toSorted']);

/** True where nobody else holds the value yet. */
function isFresh(node: ts.Expression | undefined): boolean {
  if (node === undefined) return false;
  if (ts.isArrayLiteralExpression(node) || ts.isNewExpression(node) || ts.isObjectLiteralExpression(node)) return true;
  if (ts.isParenthesizedExpression(node) || ts.isAsExpression(node)) return isFresh(node.expression);
  return ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression) && FRESH.has(node.expression.name.text);
}

/** The variable that a chain of properties and elements begins with. */
function rootOf(node: ts.Node): ts.Node {
  const isPart = ts.isPropertyAccessExpression(node) || ts.isElementAccessExpression(node) || ts.isNonNullExpression(node);
  return isPart ? rootOf(node.expression) : node;
}

/** What a node changes by itself: the variable or value, or null where it changes nothing. */
function changedBy(node: ts.Node): ts.Node | null {
  if (ts.isBinaryExpression(node)) {
    const { kind } = node.operatorToken;
    return kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment ? node.left : null;
  }
  if (ts.isPrefixUnaryExpression(node) || ts.isPostfixUnaryExpression(node)) {
    const isStep = node.operator === ts.SyntaxKind.PlusPlusToken || node.operator === ts.SyntaxKind.MinusMinusToken;
    return isStep ? node.operand : null;
  }
  if (ts.isDeleteExpression(node)) return node.expression;
  if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression)) return null;
  return CHANGING.has(node.expression.name.text) ? node.expression.expression : null;
}

/** The variables declared in a node: those whose value is its own, and those that it only gives a name. */
function declaredIn(node: ts.Node): { readonly names: ReadonlySet<string>; readonly own: ReadonlySet<string> } {
  const names = new Set<string>();
  const own = new Set<string>();
  const visit = (at: ts.Node): void => {
    if ((ts.isVariableDeclaration(at) || ts.isBindingElement(at) || ts.isParameter(at)) && ts.isIdentifier(at.name)) {
      names.add(at.name.text);
      if (ts.isVariableDeclaration(at) && isFresh(at.initializer)) own.add(at.name.text);
    }
    ts.forEachChild(at, visit);
  };
  visit(node);
  return { names, own };
}

/** Knows of a name, called or handed on, whether it may stand for a function that changes what is outside of it. */
export type Changes = (name: ts.Identifier, isCalled: boolean) => boolean;

/** The name by which something is called. */
function calleeOf(node: ts.Node): ts.Node | null {
  if (!ts.isCallExpression(node)) return null;
  return ts.isPropertyAccessExpression(node.expression) ? node.expression.name : node.expression;
}

/** True where evaluating a node changes what is outside of it, waits, or names a function that does so. */
export function hasEffect(node: ts.Node, changes: Changes): boolean {
  const { names, own } = declaredIn(node);
  const isOwn = (changed: ts.Node): boolean => {
    if (isFresh(changed as ts.Expression)) return true;
    const root = rootOf(changed);
    return ts.isIdentifier(root) && own.has(root.text);
  };
  const visit = (at: ts.Node): boolean => {
    if (ts.isAwaitExpression(at) || ts.isYieldExpression(at)) return true;
    const changed = changedBy(at);
    // another value may be given to any name that is declared in here; a value may be changed where nobody else holds it
    const isInside =
      changed !== null && ((!ts.isCallExpression(at) && ts.isIdentifier(changed) && names.has(changed.text)) || isOwn(changed));
    if (changed !== null && !isInside) return true;
    if (ts.isIdentifier(at) && changes(at, calleeOf(at.parent) === at && !names.has(at.text))) return true;
    return ts.forEachChild(at, visit) ?? false;
  };
  return visit(node);
}

/** Which functions of a program change what is outside of them, by themselves or by what they name. */
export function changesIn(files: readonly ts.SourceFile[], checker: ts.TypeChecker): Changes {
  /** Those of which it is not known yet; what stays here to the end changes nothing. */
  const open = new Set<ts.Node>();
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionDeclaration(node) || (ts.isVariableDeclaration(node) && isFunction(node.initializer))) open.add(node);
    ts.forEachChild(node, visit);
  };
  for (const file of files) visit(file);
  const known = new Map<ts.Identifier, ts.Node | undefined>();
  const own = new Set(files);
  const changing = new Set<ts.Node>();
  const changes: Changes = (name, isCalled) => {
    if (!known.has(name)) known.set(name, declarationOf(name, checker));
    const declared = known.get(name);
    if (declared === undefined || !own.has(declared.getSourceFile())) return false;
    if (changing.has(declared)) return true;
    if (open.has(declared)) return false;
    // what another function gave, or what was handed in, may keep something in mind
    return isCalled
      ? !ts.isClassDeclaration(declared)
      : isMadeByCall(declared) && checker.getTypeAtLocation(name).getCallSignatures().length > 0;
  };
  for (let before = -1; before < changing.size; ) {
    before = changing.size;
    for (const one of open) {
      if (!hasEffect(one, changes)) continue;
      changing.add(one);
      open.delete(one);
    }
  }
  return changes;
}

const isMadeByCall = (node: ts.Node): boolean =>
  ts.isVariableDeclaration(node) && node.initializer !== undefined && ts.isCallExpression(node.initializer);

const isFunction = (node: ts.Node | undefined): boolean =>
  node !== undefined && (ts.isArrowFunction(node) || ts.isFunctionExpression(node));

function declarationOf(name: ts.Identifier, checker: ts.TypeChecker): ts.Node | undefined {
  const symbol = checker.getSymbolAtLocation(name);
  if (symbol === undefined) return undefined;
  const meant = (symbol.flags & ts.SymbolFlags.Alias) === 0 ? symbol : checker.getAliasedSymbol(symbol);
  return meant.valueDeclaration;
}
