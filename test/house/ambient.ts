import ts from 'typescript';

const globals = new Set([
  ...['document', 'window', 'self', 'globalThis', 'navigator', 'location', 'history'],
  ...['localStorage', 'sessionStorage', 'indexedDB', 'caches', 'fetch', 'crypto', 'performance'],
  ...['process', 'Intl', 'setTimeout', 'setInterval', 'requestAnimationFrame', 'queueMicrotask'],
]);
const members: Readonly<Record<string, readonly string[]>> = {
  Date: ['now'],
  Math: ['random'],
};
/** Members of any object that answer by the reader's locale or zone. */
const local =
  /^(toLocale\w+|localeCompare|getTimezoneOffset|get(FullYear|Month|Date|Day|Hours|Minutes))$/;

/** Uses of DOM, storage, clock, locale or randomness in a TypeScript source, each with its place.
 *  Reads names, not types: a name that the file declares itself is its own. */
export function ambientUses(path: string, text: string): string[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const own = declaredNames(source);
  const found: string[] = [];
  const add = (node: ts.Node, what: string): void => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    found.push(`${path}:${String(line + 1)}: ${what}`);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node) && globals.has(node.text) && !own.has(node.text) && isValue(node)) {
      add(node, node.text);
    }
    if (ts.isPropertyAccessExpression(node)) {
      const name = node.name.text;
      const of = node.expression.getText();
      if (members[of]?.includes(name)) add(node, `${of}.${name}`);
      else if (local.test(name)) add(node, name);
    }
    if (ts.isBindingElement(node)) {
      const of = ts.isVariableDeclaration(node.parent.parent)
        ? node.parent.parent.initializer?.getText()
        : undefined;
      const name = (node.propertyName ?? node.name).getText();
      if (of !== undefined && members[of]?.includes(name)) add(node, `${of}.${name}`);
    }
    const isDate =
      (ts.isNewExpression(node) || ts.isCallExpression(node)) &&
      node.expression.getText() === 'Date';
    // Called without `new`, Date ignores its arguments and tells the time.
    if (isDate && (ts.isCallExpression(node) || !node.arguments?.length)) add(node, 'the clock');
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** Whether an identifier stands for a value: neither a member's name, nor a key, nor inside a type. */
function isValue(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isPropertyAssignment(parent)) return parent.initializer === node;
  if (ts.isBindingElement(parent)) return parent.initializer === node;
  return !(
    ts.isTypeElement(parent) ||
    ts.isClassElement(parent) ||
    ts.isTypeNode(parent) ||
    ts.isQualifiedName(parent) ||
    ts.isNamedTupleMember(parent)
  );
}

function declaredNames(source: ts.SourceFile): Set<string> {
  const names = new Set<string>();
  const visit = (node: ts.Node): void => {
    const declares =
      ts.isVariableDeclaration(node) ||
      ts.isParameter(node) ||
      ts.isBindingElement(node) ||
      ts.isFunctionDeclaration(node) ||
      ts.isImportSpecifier(node);
    if (declares && node.name && ts.isIdentifier(node.name)) names.add(node.name.text);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return names;
}
