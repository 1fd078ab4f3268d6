/** Small drawings of our own; they repeat what is written beside them and are hidden from screen readers. */

/** A job ticket with its punched hole, and the wave of heat over it. */
export function TicketMark() {
  return (
    <svg class="mark" viewBox="0 0 32 32" aria-hidden="true">
      <path class="mark-fill" d="M4 7a3 3 0 0 1 3-3h12l9 9v12a3 3 0 0 1-3 3H7a3 3 0 0 1-3-3z" />
      <circle class="mark-hole" cx="20.5" cy="11.5" r="2.6" />
      <path d="M9 23c3-2 0-4 3-6s0-4 2-5M16 23c3-2 0-4 3-6" stroke-linecap="round" />
    </svg>
  );
}

export function ArrowMark() {
  return (
    <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d="M4 12h15M13 6l6 6-6 6" stroke-linecap="round" stroke-linejoin="round" />
    </svg>
  );
}

export function BackMark() {
  return (
    <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
      <path
        d="M9 6 4 11l5 5M4 11h10a6 6 0 0 1 0 12h-2"
        transform="translate(0 -3)"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}

export function CautionMark() {
  return (
    <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d="M12 3 2.5 20h19z" stroke-linejoin="round" />
      <path d="M12 10v4.5M12 17v.6" stroke-linecap="round" />
    </svg>
  );
}

export function LockMark() {
  return (
    <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d="M6 11h12v9H6zM8.5 11V8a3.5 3.5 0 0 1 7 0v3" stroke-linejoin="round" />
    </svg>
  );
}

export function ThemeMark() {
  return (
    <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
      <circle cx="12" cy="12" r="8" />
      <path class="mark-fill" d="M12 4a8 8 0 0 1 0 16z" />
    </svg>
  );
}
