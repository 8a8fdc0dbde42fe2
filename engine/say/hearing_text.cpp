#include "engine/say/hearing_text.h"

#include "engine/document/json_text.h"
#include "engine/say/text_table.h"

namespace counterpull {

std::string hearing_json(const std::vector<HeardString>& strings, double seconds) {
    Json list = Json::array();
    for (const HeardString& string : strings) {
        const auto said = [&](double value) { return string.heard ? json_number(value) : Json(); };
        list.push_back(object_of({{"heard", string.heard},
                                  {"hz", said(string.hz)},
                                  {"cents", said(string.cents)},
                                  {"sigma_cents", said(string.sigma_cents)},
                                  {"at_seconds", said(string.at_s)}}));
    }
    return object_of({{"format", "counterpull-hearing/1"},
                      {"seconds", json_number(seconds)},
                      {"strings", std::move(list)}})
               .dump(1) +
           "\n";
}

std::string hearing_text(const std::vector<HeardString>& strings, const std::vector<Pitch>& tuning,
                         const Words& words) {
    TextTable table;
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const HeardString& string = strings[i];
        std::vector<std::string> cells{
            words.say(Phrase("usage.hear_string")
                          .with("number", number(static_cast<double>(strings.size() - i), 0))
                          .with("note", tuning[i]))};
        if (string.heard) {
            cells.push_back(words.say(Phrase("usage.hear_hz").with("hz", number(string.hz, 2))));
            cells.push_back(words.say(Phrase("usage.hear_cents")
                                          .with("cents", signed_number(string.cents, 1))
                                          .with("sigma", number(string.sigma_cents, 1))));
        } else {
            cells.emplace_back(words.text("usage.hear_nothing"));
        }
        table.row(std::move(cells));
    }
    return std::string(words.text("usage.hear_head")) + "\n" + table.text();
}

Phrase refusal_of(const WavRead& read) {
    const auto found = [&](const char* key, int digits) {
        return Phrase(key).with("found", number(read.found, digits));
    };
    switch (read.trouble) {
    case WavTrouble::cut_short:
        return "usage.wav_cut_short";
    case WavTrouble::not_samples:
        return found("usage.wav_samples", 0);
    case WavTrouble::channels:
        return found("usage.wav_channels", 0);
    case WavTrouble::rate:
        return found("usage.wav_rate", 0);
    case WavTrouble::too_long:
        return found("usage.wav_too_long", 0);
    case WavTrouble::empty:
        return "usage.wav_empty";
    case WavTrouble::none:
    case WavTrouble::not_wav:
        break;
    }
    return "usage.wav_not";
}

} // namespace counterpull
