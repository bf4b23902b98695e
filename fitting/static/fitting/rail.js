// The peg rail at the foot of a phone. Without this file it stays where it is.
"use strict";
{
  // While somebody types, the rail makes room for the keyboard. It comes back only when
  // no press is going on: coming up under the finger it would swallow the press.
  const isTyped = (field) =>
    field.matches("textarea, input:not([type=checkbox], [type=radio], [type=submit])");
  let pressed = false;

  function makeRoom() {
    const typed = isTyped(document.activeElement || document.body);
    if (typed || !pressed) document.body.classList.toggle("typing", typed);
  }

  function letGo() {
    pressed = false;
    makeRoom();
  }

  document.addEventListener("focusin", makeRoom);
  document.addEventListener("focusout", makeRoom);
  document.addEventListener("mousedown", () => {
    pressed = true;
  });
  for (const end of ["mouseup", "dragend"]) {
    document.addEventListener(end, () => setTimeout(letGo)); // the click comes first
  }
}
