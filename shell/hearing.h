// What the microphone says of the strings. The platform listens (web/page/listening.js) and brings the
// numbers; where it cannot, nothing of this is offered.
#pragma once

#include "engine/hearing/listener.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

struct Hearing {
    enum class State { off, asked, on };
    State state = State::off;
    std::string place;                 // id of the button that it was asked for by
    bool drawn = false;                // that place is on the page in this frame
    std::vector<StringTarget> targets; // as the platform was told, lowest string first
    std::string note;                  // on the sound, or why it ended, in words
    long tellings = 0;                 // grows with everything told
    // As it was told last (listener.h); its times are seconds since the listening began.
    double seconds = 0.0;
    double since_onset_s = 0.0;
    std::optional<Live> live;
    std::vector<HeardString> latest, best;    // of the last pluck or strum, and of all
    std::vector<HeardString> last;            // each string as it was heard last
    std::vector<double> taken_s;              // what was heard of each until then was taken (take_new)
    std::vector<std::optional<double>> taken; // and what that was

    bool on_for(std::string_view id) const { return state != State::off && place == id; }
    // Other strings, or elsewhere: nothing is known of them yet.
    void listen_for(std::vector<StringTarget> strings);
    // What was heard until now is of the past: something was done to the guitar.
    void begin_anew();
    // What is best known of each string, to a tenth of a cent, where it is newer than what was taken before.
    // `entered` is what stands there now: typed over what was taken it stays until the string is played
    // again.
    std::vector<std::optional<double>> take_new(const std::vector<std::optional<double>>& entered);
    bool any_new() const;
    // A list of numbers as web/hearing/hearing.cpp tells them, as JSON; another is passed over.
    void take(std::string_view numbers, std::string note);
    void end(std::string why);
    // What the platform is told: the targets in a row, four numbers each (hearing.cpp), as JSON.
    std::string targets_as_text() const;
};

} // namespace counterpull
