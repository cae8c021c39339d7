namespace Coldpeel.Workshop.Findings;

/// <summary>What the machine is called on which the workshop runs, wherever it stands as who did something.</summary>
public static class OwnComputer
{
    /// <summary>Its name: on every device the same machine.</summary>
    public const string Name = "the workshop's computer";

    // As an earlier version wrote it.
    private const string Earlier = "this computer";

    /// <summary>Who did it, as we call them now.</summary>
    public static string Of(string who) => who == Earlier ? Name : who;
}
