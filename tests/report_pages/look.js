// Measures a page from inside: what overlaps, what sticks out, what runs, what an aid to reading would miss.
(function () {
  function look() {
    var found = { overlaps: [], outside: [], headings: [], scripts: 0, unnamed: 0, tables: 0, texts: 0, figures: 0 };
    var slack = 0.05;
    document.querySelectorAll("svg").forEach(function (svg, number) {
      found.figures += 1;
      var box = svg.viewBox.baseVal;
      var boxes = Array.prototype.map.call(svg.querySelectorAll("text"), function (text) {
        return { text: text.textContent, at: text.getBBox() };
      });
      found.texts += boxes.length;
      boxes.forEach(function (one, index) {
        var a = one.at;
        if (a.x < -slack || a.y < -slack || a.x + a.width > box.width + slack || a.y + a.height > box.height + slack) {
          found.outside.push([number + 1, one.text]);
        }
        boxes.slice(index + 1).forEach(function (other) {
          var b = other.at;
          var wide = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
          var high = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
          if (wide > slack && high > slack) {
            found.overlaps.push([number + 1, one.text, other.text]);
          }
        });
      });
      if (!svg.querySelector("title") || !svg.querySelector("desc") || svg.getAttribute("role") !== "img") {
        found.unnamed += 1;
      }
    });
    var last = 0;
    document.querySelectorAll("h1,h2,h3,h4,h5,h6").forEach(function (heading) {
      var level = Number(heading.tagName.slice(1));
      if (level > last + 1 || !heading.textContent.trim()) {
        found.headings.push(heading.textContent);
      }
      last = level;
    });
    document.querySelectorAll("table").forEach(function (table) {
      var heads = table.querySelectorAll("thead th[scope=col]").length;
      var rows = table.querySelectorAll("tbody tr").length;
      // a form to fill in has heads in its rows alone
      var form = table.classList.contains("boxes") && !table.tHead;
      if ((!heads && !form) || table.querySelectorAll("tbody th[scope=row]").length !== rows) {
        found.tables += 1;
      }
    });
    // this one is ours
    found.scripts = document.querySelectorAll("script").length - 1;
    found.handlers = Array.prototype.filter.call(document.querySelectorAll("*"), function (element) {
      return Array.prototype.some.call(element.attributes, function (attribute) {
        return /^on/i.test(attribute.name) || /^(src|xlink:href|action|data|style)$/i.test(attribute.name);
      });
    }).length;
    found.links = Array.prototype.filter.call(document.querySelectorAll("[href]"), function (element) {
      return !/^#s\d+$/.test(element.getAttribute("href"));
    }).length;
    var page = document.documentElement;
    found.wider = Math.max(0, page.scrollWidth - page.clientWidth);
    found.width = page.clientWidth;
    parent.postMessage(JSON.stringify(found), "*");
  }
  if (document.readyState === "complete") {
    look();
  } else {
    window.addEventListener("load", look);
  }
})();
