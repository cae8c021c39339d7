using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>The faces of one paper, each with nothing but the glyphs that the paper uses.</summary>
internal sealed class SlimFaces : IDisposable
{
    private readonly Dictionary<SKTypeface, SKTypeface> _slim = [];

    /// <param name="runs">All text of the paper.</param>
    public SlimFaces(IEnumerable<TextRun> runs)
    {
        foreach (var face in runs.GroupBy(r => r.Face))
        {
            if (SlimFont.Of(face.Key, face.SelectMany(TextRuns.Glyphs).ToHashSet()) is { } slim)
            {
                _slim[face.Key] = slim;
            }
        }
    }

    /// <summary>The face to draw with.</summary>
    public SKTypeface For(SKTypeface face) => _slim.GetValueOrDefault(face, face);

    public void Dispose()
    {
        foreach (var face in _slim.Values)
        {
            face.Dispose();
        }
    }
}
