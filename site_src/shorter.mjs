// Shortens scripts: reads the place of the library and the texts by name as JSON, and writes them as JSON.

import { readFileSync } from "node:fs";

const { library, texts } = JSON.parse(readFileSync(0, "utf8"));
const terser = {};
// It asks for one other package, which makes maps back to the source; none is made here.
new Function("exports", "module", "require", readFileSync(library, "utf8"))(terser, {}, () => ({}));
try {
  for (const name of Object.keys(texts)) {
    const { code } = await terser.minify({ [name]: texts[name] }, { module: true, ecma: 2022 });
    texts[name] = code;
  }
  process.stdout.write(JSON.stringify(texts));
} catch (fault) {
  process.stderr.write(`${fault.filename}, line ${fault.line}: ${fault.message}`);
  process.exitCode = 1;
}
