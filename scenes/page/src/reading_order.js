/** In narrow windows the casts stand above the settings: then they also come first for the keyboard. */

import { byId } from "./dom.js";

const NARROW = "(max-width: 900px)";

/** Keep the order of the page's parts as they are seen. */
export function keepReadingOrder() {
  const narrow = matchMedia(NARROW);
  const settle = () => {
    const [settings, centre] = [byId("settings"), byId("centre")];
    const { activeElement: focused } = document;
    const { scrollTop } = settings;
    if (narrow.matches) centre.after(settings);
    else centre.before(settings);
    settings.scrollTop = scrollTop;
    if (settings.contains(focused)) focused.focus({ preventScroll: true });
  };
  narrow.addEventListener("change", settle);
  settle();
}
