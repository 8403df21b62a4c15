// Text and files out of the page and into it.

/** Puts text on the clipboard; returns whether the browser let us. @param {string} text */
export async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

/** Hands `text` to the reader as a file.
 * @param {string} name
 * @param {string} text */
export function download(name, text) {
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = `${name.replace(/[^\p{L}\p{N} _-]/gu, "").trim() || "shop"}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000); // the browser may still be asking where to put it
}

/** Whether this browser hands `data` to the phone's share sheet. @param {ShareData} data */
export const canShare = (data) => Boolean(navigator.share && navigator.canShare?.(data));

/** Opens the share sheet; returns false where it failed, not where the reader turned back. @param {ShareData} data */
export async function share(data) {
  try {
    await navigator.share(data);
    return true;
  } catch (fault) {
    return /** @type {Error} */ (fault)?.name === "AbortError";
  }
}
