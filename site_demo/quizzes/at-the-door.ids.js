(window.casetrueParts??={})["at-the-door.ids"]=["q-first-visit-order","q-tight-jaw","q-two-numbers","q-hands-again","q-what-is-wrong","q-later-sign","q-half-session"];
