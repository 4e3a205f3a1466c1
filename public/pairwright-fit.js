// The element <pairwright-fit>: the app in somebody else's page. That page's address, title, content and styles stay as they
// are; what stands within the element is shown until the app is ready, and for good where it cannot be.
import { folder, line, load, style } from './pairwright.js';

const NAME = 'pairwright-fit';
const ATTRIBUTES = ['table', 'units', 'carrier', 'head', 'show', 'enquiry', 'links', 'app'];

// A length of our own, so that the sizes of the text do not follow the size that a page gives its root.
try {
  CSS.registerProperty({ name: '--pairwright-rem', syntax: '<length>', inherits: true, initialValue: '16px' });
} catch {
  // Registered before.
}

class PairwrightFit extends HTMLElement {
  static observedAttributes = [...ATTRIBUTES, 'load'];

  #slot = document.createElement('slot');
  #frame = document.createElement('div');
  // Waits until it is near what is seen of the page.
  #near = null;
  // The app in it; where it stood when it was taken out; the newest going in or out.
  #app = null;
  #kept = undefined;
  #turn = 0;

  constructor() {
    super();
    this.#frame.className = 'frame';
    this.#frame.hidden = true;
    this.attachShadow({ mode: 'open' }).append(this.#slot, this.#frame);
  }

  connectedCallback() {
    const turn = ++this.#turn;
    // Moved within the page: the app never left.
    if (!this.#app) this.#await(turn);
  }

  disconnectedCallback() {
    const turn = ++this.#turn;
    // A moved element is back before this runs.
    setTimeout(() => {
      if (turn === this.#turn) this.#stop();
    });
  }

  attributeChangedCallback(name, before, value) {
    if (before === value) return;
    if (name === 'load') {
      // Told to while it still waits.
      if (this.#near) this.#await(this.#turn);
      return;
    }
    this.#app?.set(name, value ?? undefined);
    // Told another thing while it was out of the page, it does not go on where it stood.
    if (!this.#app && ['carrier', 'head', 'units'].includes(name)) this.#kept = undefined;
  }

  // What nobody sees costs nobody anything: it loads when it comes within a screen's height, or at once where `load` says so.
  #await(turn) {
    this.#near?.disconnect();
    this.#near = null;
    if (this.getAttribute('load') === 'now' || typeof IntersectionObserver !== 'function') {
      this.#start(turn);
      return;
    }
    this.#near = new IntersectionObserver((seen) => {
      if (!seen.some((one) => one.isIntersecting)) return;
      this.#near?.disconnect();
      this.#near = null;
      if (turn === this.#turn) this.#start(turn);
    }, { rootMargin: '100% 0px' });
    this.#near.observe(this);
  }

  async #start(turn) {
    try {
      const [app, sheet, to] = await Promise.all([load(), style(), line()]);
      if (turn !== this.#turn || this.#app) return;
      this.shadowRoot.adoptedStyleSheets = [sheet];
      const attributes = ATTRIBUTES.flatMap((name) => [name, this.getAttribute(name) ?? undefined]);
      this.#app = app.mountElement(to, this, this.#frame, folder, attributes, this.#kept, (there) => this.#show(there));
    } catch (fault) {
      console.error(`${NAME} could not start:`, fault);
    }
  }

  // What stands within the element is better than a fault; where nothing stands the fault is told.
  #show(there) {
    const empty = !this.textContent.trim() && !this.childElementCount;
    if (!there && !this.#frame.hidden) return;
    if (!there && !empty) return;
    this.#slot.hidden = true;
    this.#frame.hidden = false;
  }

  #stop() {
    this.#near?.disconnect();
    this.#near = null;
    if (!this.#app) return;
    this.#kept = this.#app.state();
    this.#app.free();
    this.#app = null;
    this.#frame.replaceChildren();
    this.#frame.hidden = true;
    this.#slot.hidden = false;
  }
}

// The script may stand in a page twice, or come from two folders: the first one counts.
if (!customElements.get(NAME)) customElements.define(NAME, PairwrightFit);
