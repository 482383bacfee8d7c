import { useEffect, useRef, useState } from 'preact/hooks';

/** Two short tones whenever `count` goes up, once somebody asked for them: browsers let no page sound by itself. */
export function useTone(count: number): { isOn: boolean; toggle: () => void } {
  const [audio, setAudio] = useState<AudioContext>();
  const heard = useRef(count);
  useEffect(() => {
    if (count > heard.current && audio !== undefined) sound(audio);
    heard.current = count;
  }, [count, audio]);
  const toggle = () => {
    if (audio !== undefined) {
      void audio.close();
      setAudio(undefined);
      return;
    }
    const opened = new AudioContext();
    sound(opened);
    setAudio(opened);
  };
  return { isOn: audio !== undefined, toggle };
}

function sound(audio: AudioContext): void {
  [440, 587].forEach((hertz, i) => {
    const tone = audio.createOscillator();
    const loudness = audio.createGain();
    const begin = audio.currentTime + i * 0.18;
    tone.frequency.value = hertz;
    loudness.gain.setValueAtTime(0.15, begin);
    loudness.gain.exponentialRampToValueAtTime(0.001, begin + 0.16);
    tone.connect(loudness).connect(audio.destination);
    tone.start(begin);
    tone.stop(begin + 0.17);
  });
}
