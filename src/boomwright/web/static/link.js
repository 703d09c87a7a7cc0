// The socket: two edits under way at most, the newest of each kind waiting behind them. The second
// lies ready in the program when the first is done, so that it never waits for the page to paint.
// An edit that overtakes the last one sent goes out at once: the program takes up the newest only.
// What cannot be sent now is kept and sent once the program answers again.

const UNDER_WAY = 2;
const OVERTAKING = 16;

const overtakes = (next, last) => next.key && last?.key === next.key && last.gesture === next.gesture;

export class Link {
  constructor(path, { onMessage, onState }) {
    this.path = path;
    this.onMessage = onMessage;
    this.onState = onState;
    this.waiting = [];
    this.seq = 0;
    // What was sent and is not answered, by its number, oldest first.
    this.underWay = new Map();
    this.delay = 300;
    // What was asked for while there was no connection.
    this.asked = [];
    this.connect();
  }

  connect() {
    this.socket = new WebSocket(new URL(this.path, location.href.replace(/^http/, "ws")));
    this.socket.onopen = () => {
      this.delay = 300;
      this.onState(true);
      for (const edit of this.asked.splice(0)) this.tell(edit);
      this.pump();
    };
    this.socket.onmessage = (event) => this.receive(JSON.parse(event.data));
    this.socket.onclose = () => {
      this.onState(false);
      const kept = [...this.underWay.values(), ...this.waiting];
      this.waiting = kept.filter((entry, i) => !(i + 1 < kept.length && overtakes(kept[i + 1], entry)));
      this.underWay.clear();
      setTimeout(() => this.connect(), this.delay);
      this.delay = Math.min(this.delay * 2, 4000);
    };
  }

  // Whether edits are still unanswered: what comes back then shows an older state.
  get busy() {
    return this.underWay.size > 0 || this.waiting.length > 0;
  }

  // key: edits with the same key overtake one another; empty: every edit counts.
  send(edit, { gesture = 0, key = "", at = performance.now() } = {}) {
    const entry = { edit, gesture, key, at };
    if (overtakes(entry, this.waiting.at(-1))) this.waiting.pop();
    this.waiting.push(entry);
    this.pump();
  }

  // What is no edit of the plan: sent at once, answered in its own time.
  tell(edit) {
    if (this.socket.readyState !== WebSocket.OPEN) {
      this.asked.push(edit);
      return;
    }
    this.seq += 1;
    this.socket.send(JSON.stringify({ seq: this.seq, edit }));
  }

  pump() {
    while (this.waiting.length && this.socket.readyState === WebSocket.OPEN) {
      const most = overtakes(this.waiting[0], [...this.underWay.values()].at(-1)) ? OVERTAKING : UNDER_WAY;
      if (this.underWay.size >= most) return;
      const entry = this.waiting.shift();
      this.seq += 1;
      this.underWay.set(this.seq, entry);
      this.socket.send(JSON.stringify({ seq: this.seq, gesture: entry.gesture, edit: entry.edit }));
    }
  }

  // One answer may be for several edits: the program takes what lies ready at once.
  receive(message) {
    let entry = null;
    const refused = message.kind === "refused";
    for (const [seq, sent] of this.underWay) {
      if (!refused && !(message.kind === "quick" && seq <= message.seq)) break;
      entry = sent;
      this.underWay.delete(seq);
      if (refused) break;
    }
    if (entry) this.pump();
    this.onMessage(message, entry);
  }
}

let gestures = 0;

// A new number for each drag, slider pull or run of keys, so that each is one step of undo.
export function newGesture() {
  gestures += 1;
  return gestures;
}
