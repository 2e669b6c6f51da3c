/** Make what the server hands out and what films need: scripts, style sheets, one page, and the notices. */

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
  const lead = "page.js and film.js contain parts of these packages, under these licences.\n";
  return [lead, ...texts].join("\n");
}

const SHARED = {
  absWorkingDir: HERE,
  bundle: true,
  minify: true,
  target: "es2020",
  charset: "utf8",
  logLevel: "warning",
};

/** Bundle a script. @returns {Promise<string[]>} names of the packages it has something of. */
async function script(name, entry, format) {
  const made = await build({
    ...SHARED,
    entryPoints: [entry],
    outfile: `served/${name}`,
    format,
    legalComments: "none",
    banner: { js: "/* Licences of what is bundled: notices.txt */" },
    metafile: true,
  });
  return bundledPackages(made.metafile.inputs);
}

const style = (name, entry) => build({ ...SHARED, entryPoints: [entry], outfile: `served/${name}` });

// The page of `cuspway page`, and what is put into files with films that are turned by hand.
const packages = [
  ...(await script("page.js", "src/main.js", "esm")),
  ...(await script("film.js", "src/film_main.js", "iife")),
];
await style("page.css", "src/page.css");
await style("film.css", "src/film.css");
await copyFile(join(HERE, "src/index.html"), join(SERVED, "index.html"));
await writeFile(join(SERVED, "notices.txt"), await notices([...new Set(packages)]));
