/** A film to be turned by hand: a page of one file that opens without a network. */

import { byId } from "./dom.js";
import { Film, unpacked } from "./film_data.js";
import { FilmDesk } from "./film_desk.js";

const OLD = "This browser is too old to unpack the film. A current one shows it: Firefox, Chrome, Edge or Safari.";

async function begin() {
  if (!globalThis.DecompressionStream) throw new Error(OLD);
  const [teeth, film] = await Promise.all(
    ["film-teeth", "film-moments"].map((id) => unpacked(byId(id).textContent)),
  );
  new FilmDesk(teeth, new Film(film));
}

begin().catch((error) => {
  byId("film-fault").textContent = `The film cannot be shown. ${error.message}`;
  document.documentElement.dataset.state = "fault";
});
