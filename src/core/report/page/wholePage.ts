/** One HTML file that asks for nothing: title (already safe), style, the parts of its body, and the record inside it. */
export const wholePage = (title: string, style: string, body: readonly string[], record: object): string =>
  `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">
<link rel="icon" href="data:,">
<title>${title}</title>
<style>${style}</style>
</head>
<body>
${body.join('\n')}
<script type="application/json" id="record">${inScript(record)}</script>
</body>
</html>
`;

/** JSON that cannot end the element it stands in. */
const inScript = (record: object): string => JSON.stringify(record).replaceAll('<', '\\u003c');
