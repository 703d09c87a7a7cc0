// A sheet without instruments of its own: its block is written anew when the plan changes.

import { openSheet } from "/static/sheet.js";

openSheet();
