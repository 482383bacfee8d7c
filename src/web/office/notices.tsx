export function EmergencyNotice() {
  return (
    <section class="notice" aria-label="Emergency calls">
      <p>
        <strong>This system also carries emergency calls.</strong> Where rooms are silent, tell the
        person responsible for safety now, put the agreed substitute in place, and note the times.
      </p>
    </section>
  );
}

export function LookOnlyNotice() {
  return (
    <p class="caution">
      Only look and listen. Please open nothing, unplug nothing and climb nothing, and do not
      disturb lessons or work for it. What you cannot do easily, leave to the technician.
    </p>
  );
}
