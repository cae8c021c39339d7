using System.Globalization;
using System.Text;
using Coldpeel.Files.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Small files that would take minutes or all memory: each is refused in one line, or drawn, coarser if need be, within bounds.</summary>
/// <remarks>Alone on the processor, so that the time of the processor that is measured is that of the file; the assertion leaves room for slow machines.</remarks>
[Collection(nameof(Alone))]
public sealed class HeavySvgTests
{
    [CollectionDefinition(nameof(Alone), DisableParallelization = true)]
    public sealed class Alone;

    private const string Open =
        "<svg xmlns='http://www.w3.org/2000/svg' width='300mm' height='200mm' viewBox='0 0 300 200'>";
    private const string Page = "<rect width='300' height='200' filter='url(#f)'/>";
    private const string Filter = "<filter id='f' x='0' y='0' width='1' height='1'>";

    private static readonly Dictionary<string, Func<string>> Files = new()
    {
        ["twenty blurs"] = () => Filter + Times(20, _ => "<feGaussianBlur stdDeviation='3'/>") + "</filter>" + Page,
        ["fractal noise"] = () => Filter + "<feTurbulence baseFrequency='.05' numOctaves='200'/></filter>" + Page,
        ["inputs that double"] = () =>
            Filter
            + Times(40, i => $"<feBlend in='{In(i)}' in2='{In(i)}' mode='multiply' result='r{i}'/>")
            + "</filter>"
            + Page,
        ["a chain of filter steps"] = () => Filter + Times(20_000, _ => "<feOffset dx='1'/>") + "</filter>" + Page,
        ["a wide swelling"] = () => Filter + "<feMorphology operator='dilate' radius='100'/></filter>" + Page,
        ["ten lamps"] = () =>
            Filter
            + Times(10, _ => "<feDiffuseLighting><fePointLight x='1' y='1' z='9'/></feDiffuseLighting>")
            + "</filter>"
            + Page,
        ["a hundred veils in one another"] = () =>
            Times(100, _ => "<g opacity='.9'>") + "<rect width='300' height='200'/>" + Times(100, _ => "</g>"),
        ["two thousand veils"] = () =>
            Times(2000, _ => "<g opacity='.9'><rect width='300' height='200'/><rect width='9' height='9'/></g>"),
        ["a thousand masks"] = () =>
            "<mask id='m'><rect width='300' height='200' fill='#fff'/></mask>"
            + Times(1000, _ => "<rect width='300' height='200' mask='url(#m)'/>"),
        ["clips of many shapes"] = () =>
            "<clipPath id='c'>"
            + Times(300, i => $"<circle cx='{i % 300}' cy='{i % 200}' r='90'/>")
            + "</clipPath>"
            + Times(300, _ => "<rect width='300' height='200' clip-path='url(#c)'/>"),
        ["a pattern of tiny tiles"] = () =>
            "<pattern id='p' width='.01' height='.01' patternUnits='userSpaceOnUse'><rect width='.005' height='.005'/></pattern>"
            + Times(50, _ => "<rect width='300' height='200' fill='url(#p)'/>"),
        ["patterns in patterns"] = () =>
            "<pattern id='p0' width='9' height='9' patternUnits='userSpaceOnUse'><rect width='5' height='5'/></pattern>"
            + Times(
                4,
                i =>
                    $"<pattern id='p{i + 1}' width='9' height='9' patternUnits='userSpaceOnUse'>{Times(9, _ => $"<rect width='9' height='9' fill='url(#p{i})'/>")}</pattern>"
            )
            + "<rect width='300' height='200' fill='url(#p4)'/>",
        ["uses of uses"] = () =>
            "<defs><g id='a'>"
            + Times(400, _ => "<rect width='300' height='200' fill-opacity='.01'/>")
            + "</g></defs>"
            + Times(400, _ => "<use href='#a'/>"),
        ["a zigzag"] = () =>
            "<path fill-rule='evenodd' d='M0 0"
            + Times(200_000, i => $"L{300.0 * (i * 7919L % 10007) / 10007:F2} {200 * (i % 2)}")
            + "z'/>",
        ["fine dashes"] = () =>
            Times(
                200,
                i =>
                    $"<path d='M0 {i}H290' fill='none' stroke='#000' stroke-width='.5' stroke-linecap='round' stroke-dasharray='.001 .001'/>"
            ),
        ["thousands of gradients"] = () =>
            "<linearGradient id='g'><stop offset='0'/><stop offset='1' stop-opacity='0'/></linearGradient>"
            + Times(2000, _ => "<rect width='300' height='200' fill='url(#g)'/>"),
        ["a hundred thousand letters"] = () =>
            Times(20_000, i => $"<text x='{i % 290}' y='{i % 200}' font-size='9'>Wg{i}</text>"),
        ["rules for styles"] = () =>
            "<style>"
            + Times(4000, i => $".a{i} .b{i} rect{{fill:#00{i % 10}}}")
            + "</style>"
            + Times(40_000, _ => "<rect class='b1' width='1' height='1'/>"),
        ["markers on markers"] = () =>
            "<marker id='m' markerWidth='9' markerHeight='9'>"
            + Times(300, _ => "<circle r='3'/>")
            + "</marker><path d='M0 0"
            + Times(100_000, _ => "L1 1L2 2")
            + "' marker-mid='url(#m)' fill='none' stroke='#000'/>",
        ["circles upon circles"] = () =>
            Times(6000, i => $"<circle cx='{i * 37 % 300}' cy='{i * 91 % 200}' r='{1 + (i % 90)}'/>"),
        ["knots of strokes"] = () =>
            Times(
                30,
                k =>
                    "<path fill='none' stroke='#000' stroke-width='.2' d='M0 0"
                    + Times(300, i => $"L{300.0 * (((i * 7919L) + k) % 10007) / 10007:F2} {200 * (i % 2)}")
                    + "'/>"
            ),
    };

    public static TheoryData<string> Names => [.. Files.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_small_file_that_asks_for_endless_work_is_refused_in_one_line_or_drawn_within_bounds(string name)
    {
        var bytes = Encoding.UTF8.GetBytes(Open + Files[name]() + "</svg>");
        var before = Environment.CpuUsage.TotalTime;
        double Spent() => (Environment.CpuUsage.TotalTime - before).TotalSeconds;
        var read = ArtworkReader.Read(bytes, "heavy.svg");
        var (reading, say) = (Spent(), "");
        if (!read.Ok)
        {
            say = read.Fault.ToString();
            Assert.DoesNotContain('\n', say);
            Assert.Contains("too", say, StringComparison.Ordinal);
        }
        else
        {
            var ink = read.Value.Ink(Drawings.Darkness, 300, 200);
            say = string.Create(
                CultureInfo.InvariantCulture,
                $"ink {Spent() - reading:F2} s ({ink.WhyNot ?? "outlines"})"
            );
            var picture = read.Value.Draw(300, 200, 600 / 25.4);
            say += string.Create(CultureInfo.InvariantCulture, $", drawn at {picture.PixelsPerMm * 25.4:F0} an inch");
            Assert.True((long)picture.Width * picture.Height >= 200_000);
        }

        var spent = Spent();
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{name}: {bytes.Length / 1000} kB, {spent:F2} s of the processor, reading {reading:F2} s, {say}"
            )
        );
        Assert.True(spent < 15, $"{name}: {spent:F1} s of the processor.");
    }

    [Fact]
    public void A_shadow_under_a_badge_and_a_pattern_in_a_field_are_drawn_as_finely_as_asked()
    {
        var badge = Drawings.Svg(
            "<svg xmlns='http://www.w3.org/2000/svg' width='90mm' height='60mm' viewBox='0 0 90 60'>"
                + "<filter id='f'><feDropShadow dx='1' dy='1' stdDeviation='1'/></filter>"
                + "<pattern id='p' width='2' height='2' patternUnits='userSpaceOnUse'><circle cx='1' cy='1' r='.7'/></pattern>"
                + "<circle cx='30' cy='30' r='20' filter='url(#f)'/><rect x='60' y='10' width='20' height='40' fill='url(#p)'/></svg>"
        );
        Assert.Equal(600 / 25.4, badge.Draw(90, 60, 600 / 25.4).PixelsPerMm, 1e-9);
    }

    private static string In(int step) => step == 0 ? "SourceGraphic" : $"r{step - 1}";

    private static string Times(int n, Func<int, string> part) => string.Concat(Enumerable.Range(0, n).Select(part));
}
