// Listening to the strings: a stream of samples in, for each string what it is at.
//
// A string starts sharp and settles, so what counts is read in windows of half a second that begin at least
// 0.2 s after the last onset; they are put together to one reading of each pluck or strum, and those to the
// best of all. For the eye there is a livelier value from 0.15 s after the onset on.
#pragma once

#include "engine/hearing/decimate.h"
#include "engine/hearing/onsets.h"
#include "engine/hearing/window_reading.h"

#include <optional>
#include <span>
#include <vector>

namespace counterpull {

struct HeardString {
    bool heard = false;
    double hz = 0.0;
    double cents = 0.0;       // against the target
    double sigma_cents = 0.0; // what may be wrong with it, one sigma
    double at_s = 0.0;        // when: the middle of what was read, from the first sample on
    bool steady = false;      // it drifts by less than a cent a second
};

// What sounds now, as if it were one string.
struct Live {
    std::size_t string = 0; // index of the target
    double cents = 0.0;
    double sigma_cents = 0.0;
};

class Listener {
  public:
    // Strings in any order; the rate of the samples, 8 to 192 kHz.
    Listener(std::vector<StringTarget> targets, double rate_hz);

    // Other targets, as many; what was read counts from the new ones on.
    void expect(std::vector<StringTarget> targets);

    void hear(std::span<const float> samples);
    // There will be no more: what is left over is read, though it be shorter than half a second.
    void end();

    std::optional<Live> live() const; // nothing sounds, or it is too early to say
    const std::vector<HeardString>& latest() const { return latest_; } // of the last pluck or strum
    const std::vector<HeardString>& best() const { return best_; }     // of all
    double seconds() const;                                            // heard so far
    double since_onset_s() const { return seconds() - onset_s_; }

  private:
    struct Reading {
        double at_s = 0.0;
        StringReading string;
    };
    void listen_on();
    void read(double from_s, double to_s);
    void begin_segment(double onset_s);
    void put_together();
    std::span<const float> stretch(double from_s, double to_s) const;
    MainsLines hum_before_onset() const;

    std::vector<StringTarget> targets_;
    Decimator decimator_;
    Onsets onsets_;
    std::vector<float> sound_;  // the last seconds, decimated
    std::size_t forgotten_ = 0; // samples that came before them
    double onset_s_ = 0.0;      // the last one: a strum has many
    double struck_s_ = 0.0;     // the first one of this pluck or strum
    double before_s_ = 0.0;     // the last one of that before
    double read_to_s_ = 0.0;    // how far the last window went
    MainsLines mains_;
    bool mains_known_ = false;
    std::optional<WindowReading> last_window_;   // the last window of this segment
    std::vector<std::vector<Reading>> readings_; // of this segment, per string
    std::vector<HeardString> latest_, best_;
};

// A whole recording: the same, chunk by chunk; per string the best reading.
std::vector<HeardString> hear_clip(std::span<const float> samples, double rate_hz,
                                   const std::vector<StringTarget>& targets);

} // namespace counterpull
