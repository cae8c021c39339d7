using System.Diagnostics;
using Coldpeel.Desk.Artwork;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>A photo through a tone curve: flat greys made by ImageMagick come out as the curve says, by arithmetic.</summary>
public sealed class ToneCurveOfArtworkTests : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>A field of half-transparent black: its strength is its alpha, whatever lightness is taken for.</summary>
    private string Veil(double alpha)
    {
        var file = Path.Combine(_folder, "veil.png");
        using var process = Process.Start(
            Place.Tool("convert"),
            ["-size", "600x400", FormattableString.Invariant($"xc:rgba(0,0,0,{alpha})"), file]
        );
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return file;
    }

    private static double Strength(string file, string? curve, string tone = "grey")
    {
        var answer = ReadArtwork.Run(
            file,
            new(null, 40, null, "opaque", null, null, null, null) { Tone = tone, Curve = curve }
        );
        Assert.True(answer.Ok, answer.Fault?.ToString());
        return answer.Value.Design!.Plane.Coverage.Average(c => c / 255.0);
    }

    [Theory]
    [InlineData(0.5, null, 0.5)]
    [InlineData(0.5, "50:80", 0.8)]
    [InlineData(0.25, "50:80", 0.4)] // straight between (0, 0) and (50, 80)
    [InlineData(0.75, "50:80", 0.9)] // and between (50, 80) and (100, 100)
    [InlineData(0.25, "gamma:0.5", 0.5)] // √0.25
    [InlineData(0.5, "gamma:2", 0.25)]
    [InlineData(1.0, "gamma:2", 1.0)]
    public void A_flat_grey_comes_out_as_the_curve_says(double alpha, string? curve, double printed) =>
        Assert.Equal(printed, Strength(Veil(alpha), curve), 0.006);

    [Fact]
    public void A_curve_decides_what_a_solid_tone_prints()
    {
        var veil = Veil(0.4);
        Assert.Equal(0, Strength(veil, null, "solid"));
        Assert.Equal(1, Strength(veil, "40:60", "solid"), 1e-4);
    }

    [Theory]
    [InlineData("50")]
    [InlineData("50:120")]
    [InlineData("gamma:0")]
    [InlineData("gamma:NaN")]
    [InlineData("a:b")]
    [InlineData("")]
    public void What_is_no_curve_is_refused_with_how_to_write_one(string word)
    {
        var answer = ReadArtwork.Run("none.png", new(null, 40, null, null, null, null, null, null) { Curve = word });
        Assert.StartsWith(
            $"--curve: \"{word}\" is no tone curve. Give pairs",
            answer.Fault!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("50:40,25:65", "25 % is to print as 65 % and 50 % as 40 %")]
    [InlineData("50:40,50:60", "50 % is to print as 40 % and 50 % as 60 %")]
    public void A_curve_that_falls_or_turns_back_is_refused_and_not_averaged(string word, string why)
    {
        var answer = ReadArtwork.Run("none.png", new(null, 40, null, null, null, null, null, null) { Curve = word });
        Assert.False(answer.Ok);
        Assert.StartsWith(
            $"--curve: \"{word}\" is no tone curve: {why}",
            answer.Fault.ToString(),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain('\n', answer.Fault.ToString());
    }
}
