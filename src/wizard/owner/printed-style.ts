/** The page without its style, and the style by itself: one written into a page is refused by the server's policy. */
export function withoutStyle(html: string): { readonly bare: string; readonly style: string } {
  const [found = '', style = ''] = /<style>([\s\S]*?)<\/style>/.exec(html) ?? [];
  return { bare: html.replace(found, ''), style };
}

/** A style as it is when printed, whatever it is shown on. */
export function printedStyle(style: string): string {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(style);
  return rulesOf(sheet.cssRules).join('\n');
}

function rulesOf(rules: CSSRuleList): string[] {
  return [...rules].flatMap((rule) => {
    if (!(rule instanceof CSSMediaRule)) return [rule.cssText];
    const media = rule.media.mediaText;
    if (media === 'print') return rulesOf(rule.cssRules);
    return media.startsWith('screen') ? [] : [rule.cssText];
  });
}
