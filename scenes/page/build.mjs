/** Make what the server hands out: one script, one style sheet, one page, and the notices. */

import { copyFile, readFile, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const HERE = dirname(fileURLToPath(import.meta.url));
const SERVED = join(HERE, "served");

/** Names of the packages of which something is in the bundle, in order. */
function bundledPackages(inputs) {
  const names = new Set();
  for (const path of Object.keys(inputs)) {
    const found = path.match(/node_modules\/((?:@[^/]+\/)?[^/]+)\//);
    if (found) names.add(found[1]);
  }
  return [...names].sort();
}

async function notices(names) {
  const texts = await Promise.all(
    names.map(async (name) => {
      const folder = join(HERE, "node_modules", name);
      const { version } = JSON.parse(await readFile(join(folder, "package.json"), "utf8"));
      const licence = await readFile(join(folder, "LICENSE"), "utf8");
      return `${name} ${version}\n\n${licence.replaceAll("\r\n", "\n").trim()}\n`;
    }),
  );
  const lead = "page.js contains parts of these packages, under these licences.\n";
  return [lead, ...texts].join("\n");
}

const made = await build({
  absWorkingDir: HERE,
  entryPoints: ["src/main.js"],
  outfile: "served/page.js",
  bundle: true,
  minify: true,
  format: "esm",
  target: "es2020",
  charset: "utf8",
  legalComments: "none",
  banner: { js: "/* Licences of what is bundled: notices.txt */" },
  metafile: true,
  logLevel: "warning",
});
await build({
  absWorkingDir: HERE,
  entryPoints: ["src/page.css"],
  outfile: "served/page.css",
  bundle: true,
  minify: true,
  target: "es2020",
  charset: "utf8",
  logLevel: "warning",
});
await copyFile(join(HERE, "src/index.html"), join(SERVED, "index.html"));
await writeFile(join(SERVED, "notices.txt"), await notices(bundledPackages(made.metafile.inputs)));
