/** Prints what the glTF validator of the Khronos Group says of a file, as JSON. */

import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [where, file] = process.argv.slice(2);
const validator = await import(pathToFileURL(where));
const report = await validator.default.validateBytes(new Uint8Array(readFileSync(file)));
console.log(JSON.stringify(report));
