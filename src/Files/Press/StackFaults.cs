using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Files.Press;

/// <summary>Where what is wrong in a stack's file is told: the place in the file, what is wrong, and how to mend it.</summary>
internal sealed class StackFaults(HeatProblem problem, Action<string, string, string> fail)
{
    public void Fail(string at, string what, string mend) => fail(at, what, mend);

    /// <summary>Whether a layer of that name is in the stack; when it is not, that is told.</summary>
    public bool Knows(string layer, string at)
    {
        if (problem.EveryLayer.Any(l => l.Name == layer))
        {
            return true;
        }

        fail(
            at,
            $"no layer is called \"{layer}\".",
            $"Name one of: {string.Join(", ", problem.EveryLayer.Select(l => l.Name))}."
        );
        return false;
    }
}
