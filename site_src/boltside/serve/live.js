// Added by `boltside serve` to the pages it sends; no built shop contains it. Shows the page anew when the shop was
// built anew. A hidden page does not listen, because browsers allow only a few open connections to one server.
const shown = document.currentScript.dataset.shown;
let source = null;

function listen() {
  source ??= new EventSource("/boltside-live/shown");
  source.onmessage = (event) => {
    if (event.data !== shown) {
      rest();
      location.reload();
    }
  };
}

function rest() {
  source?.close();
  source = null;
}

document.addEventListener("visibilitychange", () => (document.hidden ? rest() : listen()));
addEventListener("pagehide", rest);
addEventListener("pageshow", listen);
if (!document.hidden) listen();
