import { parse } from 'svelte/compiler';
import ts from 'typescript';

/** What a source reaches for: `undefined` where the place cannot be read off the source. */
export interface SourceImport {
  readonly specifier: string | undefined;
  readonly line: number;
}

/** Every import of a .ts or .svelte source, static, dynamic, re-exported, type-only, or as a URL beside it. */
export function sourceImports(path: string, text: string): SourceImport[] {
  return path.endsWith('.svelte') ? svelteImports(text) : typescriptImports(path, text);
}

function typescriptImports(path: string, text: string): SourceImport[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const found: SourceImport[] = [];
  const add = (at: ts.Node, given: ts.Node | undefined): void => {
    found.push({
      specifier: given && ts.isStringLiteralLike(given) ? given.text : undefined,
      line: source.getLineAndCharacterOfPosition(at.getStart()).line + 1,
    });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node, node.moduleSpecifier);
    else if (ts.isExportDeclaration(node) && node.moduleSpecifier) add(node, node.moduleSpecifier);
    else if (ts.isImportTypeNode(node)) {
      add(node, ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined);
    } else if (ts.isExternalModuleReference(node)) add(node, node.expression);
    else if (ts.isCallExpression(node)) {
      const called = node.expression.getText();
      if (node.expression.kind === ts.SyntaxKind.ImportKeyword || called === 'require') {
        add(node, node.arguments[0]);
      } else if (called.startsWith('import.meta.glob')) add(node, undefined);
    } else if (ts.isNewExpression(node) && node.expression.getText() === 'URL') {
      const [place, base] = node.arguments ?? [];
      if (base?.getText() === 'import.meta.url') add(node, place);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** The scripts are TypeScript again; markup and expressions in it can only import dynamically. */
function svelteImports(text: string): SourceImport[] {
  const { instance, module, fragment } = parse(text, { modern: true });
  const lineAt = (offset: number): number => text.slice(0, offset).split('\n').length;
  const fromScripts = [instance, module].flatMap((script) => {
    if (!script) return [];
    const { start, end } = script.content as unknown as { start: number; end: number };
    const before = lineAt(start) - 1;
    return typescriptImports('script.ts', text.slice(start, end)).map(({ specifier, line }) => ({
      specifier,
      line: line + before,
    }));
  });
  const fromMarkup: SourceImport[] = [];
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    if ('type' in node && node.type === 'ImportExpression') {
      const { source, start } = node as unknown as { source: { value?: unknown }; start: number };
      const { value } = source;
      fromMarkup.push({
        specifier: typeof value === 'string' ? value : undefined,
        line: lineAt(start),
      });
    }
    Object.values(node).forEach(visit);
  };
  visit(fragment);
  return [...fromScripts, ...fromMarkup];
}
