import ts from 'typescript';

/** Attributes that are read out or shown. */
const SAID_BY =
  /^(?:aria-(?:label|description|valuetext|roledescription)|title|placeholder|alt|label|summary|content)$/;

/** Attributes of which no value is ever read. */
const NEVER_SAID = /^(?:class|className|d|points|transform|viewBox|style|accept|rel|autocomplete)$/;

/** As the browser calls keys. */
const NAMES_OF_KEYS = new Set(['Enter', 'Escape', 'Home', 'End', 'Tab', 'Delete', 'Backspace']);

const WORD = /\p{L}{2,}/u;

/** Begins as a sentence does, or has three words in a row: what a class never looks like. */
const SENTENCE = /^\s*\p{Lu}\p{Ll}+(?:[\s,.:;!?…]|$)|\p{L}{2,} \p{L}+ \p{L}{2,}/u;

/**
 * What a file of pages says in its own words instead of those of a table of words: text between tags, attributes that are read,
 * and whatever else reads like a sentence. What is thrown is for programmers.
 */
export function literalWordsIn(fileName: string, text: string): [line: number, words: string][] {
  const found: [number, string][] = [];
  const file = ts.createSourceFile(fileName, text, ts.ScriptTarget.Latest, true);
  const say = (node: ts.Node, said: string) => {
    const { line } = file.getLineAndCharacterOfPosition(node.getStart());
    found.push([line + 1, said.trim().replaceAll(/\s+/g, ' ')]);
  };
  const visit = (node: ts.Node): void => {
    if (isForNobody(node)) return;
    if (ts.isJsxText(node) && WORD.test(node.text)) say(node, node.text);
    const written = writtenIn(node);
    if (written !== undefined && isSaid(node, written)) say(node, written);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

function isForNobody(node: ts.Node): boolean {
  return (
    isKeyOfHook(node) ||
    ts.isImportDeclaration(node) ||
    ts.isExportDeclaration(node) ||
    ts.isTypeNode(node) ||
    ts.isThrowStatement(node) ||
    (ts.isNewExpression(node) && /Error$/.test(node.expression.getText())) ||
    (ts.isJsxAttribute(node) && NEVER_SAID.test(node.name.getText()))
  );
}

/** What a hook keeps something under: its first argument. */
function isKeyOfHook(node: ts.Node): boolean {
  const { parent: call } = node;
  if (call === undefined || !ts.isCallExpression(call) || call.arguments[0] !== node) return false;
  return /^use\p{Lu}/u.test(call.expression.getText());
}

/** The text of a string or of the pieces of a template. */
function writtenIn(node: ts.Node): string | undefined {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  return ts.isTemplateHead(node) || ts.isTemplateMiddle(node) || ts.isTemplateTail(node)
    ? node.text
    : undefined;
}

function isSaid(node: ts.Node, written: string): boolean {
  if (SENTENCE.test(written) && !NAMES_OF_KEYS.has(written)) return true;
  return WORD.test(written) && isShown(node);
}

/** Whether a text is what an element or an attribute shows, through whatever chooses between texts. */
function isShown(node: ts.Node): boolean {
  let at = node;
  while (passesOn(at.parent, at)) at = at.parent;
  const { parent } = at;
  if (ts.isJsxExpression(parent)) {
    return ts.isJsxAttribute(parent.parent) ? isSaidBy(parent.parent) : true;
  }
  if (ts.isJsxAttribute(parent)) return isSaidBy(parent);
  return (
    ts.isBinaryExpression(parent) &&
    parent.operatorToken.kind === ts.SyntaxKind.EqualsToken &&
    /^document\.title$|\.(?:textContent|innerText)$/.test(parent.left.getText())
  );
}

const CHOOSES = new Set([
  ts.SyntaxKind.AmpersandAmpersandToken,
  ts.SyntaxKind.BarBarToken,
  ts.SyntaxKind.QuestionQuestionToken,
  ts.SyntaxKind.PlusToken,
]);

function passesOn(parent: ts.Node, node: ts.Node): boolean {
  if (ts.isConditionalExpression(parent)) return parent.condition !== node;
  if (ts.isBinaryExpression(parent)) return CHOOSES.has(parent.operatorToken.kind);
  return (
    ts.isParenthesizedExpression(parent) ||
    ts.isTemplateExpression(parent) ||
    ts.isTemplateSpan(parent)
  );
}

function isSaidBy(attribute: ts.JsxAttribute): boolean {
  return SAID_BY.test(attribute.name.getText());
}
