// The forecast as a drawing: one SVG file, nothing else fetched, no script.

#include <algorithm>
#include <cmath>
#include <utility>

#include "forecast/pages.h"
#include "report/work_list_page.h"

namespace cli {

namespace {

constexpr int width = 960, height = 360, left = 50, right = 940, top = 40, bottom = 300;

// One, two or five times a power of ten: at most six steps up to `most`.
std::uint64_t step_for(std::uint64_t most) {
  std::uint64_t step = 1;
  for (int i = 0; most / step > 6; ++i) step = i % 3 == 1 ? step / 2 * 5 : step * 2;
  return step;
}

class Chart {
 public:
  explicit Chart(const ForecastPage& page) : page_(page) {
    for (const auto& month : page.forecast.months) most_ = std::max({most_, month.most, month.due()});
    for (const auto& load : page.load)
      most_ = std::max(most_, static_cast<std::uint64_t>(std::ceil(load.appointments)));
  }

  std::string text() const {
    return head() + scale() + band() + bars() + appointments() + months() + "</svg>\n";
  }

 private:
  double slot() const {
    return static_cast<double>(right - left) /
           static_cast<double>(std::max<std::size_t>(1, page_.forecast.months.size()));
  }
  std::string x(std::size_t month, double share) const {
    return one_decimal(left + slot() * (static_cast<double>(month) + share));
  }
  std::string y(double count) const {
    return one_decimal(bottom - (bottom - top) * count / static_cast<double>(most_));
  }

  std::string head() const {
    const std::string title = "Examinations due by month, as of " + page_.as_of;
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + std::to_string(width) + " " +
           std::to_string(height) +
           "\" role=\"img\" aria-labelledby=\"title desc\" font-family=\"sans-serif\"" +
           " font-size=\"11\">\n<title id=\"title\">" + html_text(title) +
           "</title>\n<desc id=\"desc\">Bars: examinations due. Shaded: from those that can be done in no "
           "other"
           " month to those whose window touches the month. Line: appointments to offer when " +
           std::to_string(page_.non_attendance) +
           " per cent do not attend.</desc>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n"
           "<text x=\"50\" y=\"18\" font-size=\"14\" font-weight=\"bold\">" +
           html_text(title) +
           "</text>\n<text x=\"50\" y=\"33\">bars: due; shaded: least to most; line: appointments with " +
           std::to_string(page_.non_attendance) + " % not attending</text>\n";
  }

  std::string scale() const {
    std::string text;
    const std::uint64_t step = step_for(most_);
    for (std::uint64_t count = 0; count <= most_; count += step) {
      const std::string at = y(static_cast<double>(count));
      text += "<line x1=\"50\" x2=\"940\" y1=\"" + at + "\" y2=\"" + at +
              "\" stroke=\"#ccc\"/>\n<text x=\"44\" y=\"" + at + "\" dy=\"4\" text-anchor=\"end\">" +
              std::to_string(count) + "</text>\n";
    }
    return text;
  }

  std::string band() const {
    std::string text;
    for (std::size_t i = 0; i < page_.forecast.months.size(); ++i) {
      const auto& month = page_.forecast.months[i];
      text += rectangle(i, 0.05, 0.9, static_cast<double>(month.least), static_cast<double>(month.most),
                        "#dbe4ee");
    }
    return text;
  }

  std::string bars() const {
    std::string text;
    for (std::size_t i = 0; i < page_.forecast.months.size(); ++i) {
      text += rectangle(i, 0.25, 0.5, 0, static_cast<double>(page_.forecast.months[i].due()), "#3a6ea5");
    }
    return text;
  }

  std::string rectangle(std::size_t month, double from, double share, double low, double high,
                        const char* fill) const {
    const double tall = (bottom - top) * (high - low) / static_cast<double>(most_);
    if (tall <= 0) return "";
    return "<rect x=\"" + x(month, from) + "\" y=\"" + y(high) + "\" width=\"" + one_decimal(slot() * share) +
           "\" height=\"" + one_decimal(tall) + "\" fill=\"" + fill + "\"/>\n";
  }

  std::string appointments() const {
    std::string points;
    for (std::size_t i = 0; i < page_.load.size(); ++i) {
      points += (i == 0 ? "" : " ") + x(i, 0.5) + "," + y(page_.load[i].appointments);
    }
    return "<polyline points=\"" + points + "\" fill=\"none\" stroke=\"#8a3b12\" stroke-width=\"1.5\"/>\n";
  }

  std::string months() const {
    std::string text;
    for (std::size_t i = 0; i < page_.forecast.months.size(); ++i) {
      const engine::Date& month = page_.forecast.months[i].month;
      const bool is_marked = month.month == 1 || month.month == 7;
      if (i != 0 && (!is_marked || i < 4)) continue;  // the first label needs its room
      text += "<text x=\"" + x(i, 0.5) + "\" y=\"" + std::to_string(bottom + 16) +
              "\" text-anchor=\"middle\">" + engine::text_of(month).substr(0, 7) + "</text>\n";
    }
    const std::size_t head = page_.stamp.rfind(", head ");
    const std::size_t cut = head == std::string::npos ? page_.stamp.size() : head + 1;
    for (const auto& [at, line] :
         {std::pair{"332", page_.stamp.substr(0, cut)}, std::pair{"346", page_.stamp.substr(cut)}}) {
      text += std::string("<text x=\"50\" y=\"") + at + "\">" + html_text(line) + "</text>\n";
    }
    return text;
  }

  const ForecastPage& page_;
  std::uint64_t most_ = 1;
};

}  // namespace

std::string svg_of(const ForecastPage& page) {
  return Chart(page).text();
}

}  // namespace cli
