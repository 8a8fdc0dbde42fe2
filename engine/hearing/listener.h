// Listening to the strings: a stream of samples in, for each string what it is at.
//
// A string starts sharp and settles, so what counts is read in windows of half a second that begin at least
// 0.2 s after the last onset; they are put together to one reading of each pluck or strum, and those to the
// best of all. For the eye there is a livelier value from 0.15 s after the onset on.
#pragma once

#include "engine/hearing/decimate.h"
#include "engine/hearing/onsets.h"
#include "engine/hearing/pluck_reading.h"
#include "engine/hearing/window_reading.h"

#include <optional>
#include <span>
#include <vector>

namespace counterpull {

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

    // Other targets, as many or not: nothing is known of them but what is heard from now on.
    void expect(std::vector<StringTarget> targets);

    void hear(std::span<const float> samples);
    // There will be no more: what is left over is read, though it be shorter than half a second.
    void end();

    std::optional<Live> live() const; // nothing sounds, or it is too early to say
    const std::vector<HeardString>& latest() const { return latest_; } // of the last pluck or strum
    // Of the last three plucks of each string, those that agree.
    const std::vector<HeardString>& best() const { return best_; }
    double seconds() const; // heard so far
    double since_onset_s() const { return seconds() - onset_s_; }

  private:
    // What was heard of one string in its last plucks; the last may still sound.
    struct Plucks {
        std::vector<HeardString> read;
        std::size_t last = 0; // number of the segment that the last is from
    };
    void listen_on();
    void read(double from_s, double to_s);
    void begin_segment(double onset_s);
    void put_together();
    double sharp_yet(std::size_t string, double from_s, double to_s) const;
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
    std::optional<WindowReading> last_window_;        // the last window of this segment
    std::vector<std::vector<TimedReading>> readings_; // of this segment, per string
    std::size_t segment_ = 1;                         // its number
    std::vector<Plucks> plucks_;                      // per string
    std::vector<HeardString> latest_, best_;
};

// A whole recording: the same, chunk by chunk; per string the best reading.
std::vector<HeardString> hear_clip(std::span<const float> samples, double rate_hz,
                                   const std::vector<StringTarget>& targets);

} // namespace counterpull
