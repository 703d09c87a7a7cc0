// The socket: one edit under way at a time, the newest of each kind waiting behind it.
// What cannot be sent now is kept and sent once the program answers again.

export class Link {
  constructor(path, { onMessage, onState }) {
    this.path = path;
    this.onMessage = onMessage;
    this.onState = onState;
    this.waiting = [];
    this.seq = 0;
    this.underWay = 0;
    this.started = new Map();
    this.delay = 300;
    this.connect();
  }

  connect() {
    this.socket = new WebSocket(new URL(this.path, location.href.replace(/^http/, "ws")));
    this.socket.onopen = () => {
      this.delay = 300;
      this.underWay = 0;
      this.onState(true);
      this.pump();
    };
    this.socket.onmessage = (event) => this.receive(JSON.parse(event.data));
    this.socket.onclose = () => {
      this.onState(false);
      if (this.lastSent) {
        this.waiting.unshift(this.lastSent);
        this.lastSent = null;
      }
      setTimeout(() => this.connect(), this.delay);
      this.delay = Math.min(this.delay * 2, 4000);
    };
  }

  // Whether edits are still unanswered: what comes back then shows an older state.
  get busy() {
    return this.underWay > 0 || this.waiting.length > 0;
  }

  // key: edits with the same key overtake one another; empty: every edit counts.
  send(edit, { gesture = 0, key = "", at = performance.now() } = {}) {
    const entry = { edit, gesture, key, at };
    const last = this.waiting.at(-1);
    if (key && last && last.key === key && last.gesture === gesture) {
      this.waiting[this.waiting.length - 1] = entry;
    } else {
      this.waiting.push(entry);
    }
    this.pump();
  }

  // What is no edit of the plan: sent at once, answered in its own time.
  tell(edit) {
    this.seq += 1;
    if (this.socket.readyState === WebSocket.OPEN) this.socket.send(JSON.stringify({ seq: this.seq, edit }));
  }

  pump() {
    if (this.underWay || !this.waiting.length || this.socket.readyState !== WebSocket.OPEN) return;
    const entry = this.waiting.shift();
    this.seq += 1;
    this.underWay = this.seq;
    this.lastSent = entry;
    this.started.set(this.seq, entry);
    this.socket.send(JSON.stringify({ seq: this.seq, gesture: entry.gesture, edit: entry.edit }));
  }

  receive(message) {
    const answered = message.kind === "quick" ? message.seq >= this.underWay : message.kind === "refused";
    if (this.underWay && answered) {
      const entry = this.started.get(this.underWay);
      this.started.delete(this.underWay);
      this.underWay = 0;
      this.lastSent = null;
      this.pump();
      this.onMessage(message, entry);
    } else {
      this.onMessage(message, null);
    }
  }
}

let gestures = 0;

// A new number for each drag, slider pull or run of keys, so that each is one step of undo.
export function newGesture() {
  gestures += 1;
  return gestures;
}
